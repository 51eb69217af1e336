"""Tightening orders and their sentences."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from splitpin.hardware.pattern import order, refit_steps


@pytest.mark.parametrize(
    ("count", "turns"),
    [
        (1, (1,)),
        (2, (1, 2)),
        (3, (1, 2, 3)),
        (4, (1, 3, 2, 4)),
        (5, (1, 3, 5, 2, 4)),
        (6, (1, 4, 3, 6, 2, 5)),
        (8, (1, 5, 3, 7, 2, 6, 4, 8)),  # the usual figure for an eight-bolt flange; from memory
    ],
)
def test_crosswise_orders_by_hand(count: int, turns: tuple[int, ...]) -> None:
    assert order(count, "cross") == turns


@given(st.integers(1, 64), st.sampled_from(["cross", "even", "staged"]))
def test_every_piece_has_its_turn_once(count: int, pattern: str) -> None:
    assert sorted(order(count, pattern)) == list(range(1, count + 1))  # type: ignore[arg-type]


@given(st.integers(2, 32))
def test_crosswise_an_even_number_goes_in_opposite_pairs(half: int) -> None:
    turns = order(2 * half, "cross")
    assert all(turns[i + 1] - turns[i] == half for i in range(0, 2 * half, 2))


@given(st.integers(2, 32))
def test_crosswise_an_odd_number_never_goes_to_a_neighbour(half: int) -> None:
    count = 2 * half + 1
    turns = order(count, "cross")
    steps = [min((b - a) % count, (a - b) % count) for a, b in pairwise(turns)]
    assert set(steps) == {half}


def test_four_screws_crosswise_to_a_torque() -> None:
    assert refit_steps(4, "screw M6", "screws M6", "cross", 8.0) == (
        "Start all 4 screws M6 by hand.",
        "Tighten all 4 crosswise (1, 3, 2, 4) to 2.4 N·m (30 %).",
        "Tighten all 4 crosswise (1, 3, 2, 4) to 5.6 N·m (70 %).",
        "Tighten all 4 crosswise (1, 3, 2, 4) to 8 N·m.",
        "Go once round all 4 to 8 N·m: none may turn further.",
    )


def test_without_a_torque_no_figure_is_made_up() -> None:
    steps = refit_steps(6, "nut M6", "nuts M6", "even", None)
    assert steps == (
        "Start all 6 nuts M6 by hand.",
        "Tighten all 6 in turn round the joint until they just bear.",
        "Tighten all 6 in turn round the joint until tight.",
    )


def test_two_and_three_pieces_have_no_cross() -> None:
    assert refit_steps(2, "screw M6", "screws M6", "cross", None) == (
        "Start both screws M6 by hand.",
        "Tighten both in turn until they just bear.",
        "Tighten both in turn until half tight.",
        "Tighten both in turn until tight.",
    )
    assert refit_steps(3, "screw M6", "screws M6", "cross", None)[1] == (
        "Tighten all 3 in turn round the joint until they just bear."
    )


def test_one_piece_and_no_pattern() -> None:
    assert refit_steps(1, "screw M6", "screws M6", "cross", 8.0) == (
        "Start the screw M6 by hand and tighten it to 8 N·m.",
    )
    assert refit_steps(2, "screw M6", "screws M6", None, None) == (
        "Start both screws M6 by hand.",
        "Tighten both.",
    )
