"""The sequence of checks: worked cases, every sequence of small instances, the block rule against the search."""

import itertools
import random

import pytest

from splitpin.faults import CheckProblem, best_checks
from splitpin.faults import search as search_module
from splitpin.faults.blocks import block_order, nested
from splitpin.faults.check import expected_seconds

NAMES = "ABCDE"
WEIGHTS = (35, 25, 20, 15, 5)
MINUTES = (20, 5, 12, 3, 2)


def five(behind: dict[str, set[int]] | None = None, openings: tuple[int, ...] = (), extra: int = 0) -> CheckProblem:
    behind = behind or {}
    return CheckProblem(
        WEIGHTS,
        tuple(minutes + (extra if name in "BD" else 0) for name, minutes in zip(NAMES, MINUTES, strict=True)),
        tuple(frozenset(behind.get(name, set())) for name in NAMES),
        openings,
    )


def spoken(order: tuple[int, ...]) -> str:
    return "".join(NAMES[suspect] for suspect in order)


# The next three: constructed cases, optimum by enumeration of all 120 sequences; the rule for the first is that of
# J. B. Kadane and H. A. Simon, for the second that of T. J. Ottosen and F. V. Jensen (arXiv 1203.3502).
def test_without_covers_the_greatest_likelihood_per_minute_goes_first() -> None:
    found = best_checks(five())
    assert spoken(found.order) == "BDEAC"
    assert found.expected_s == pytest.approx(21.85)
    assert expected_seconds(five(), tuple(NAMES.index(name) for name in "EDBCA")) == pytest.approx(22.45)
    assert expected_seconds(five(), (0, 1, 2, 3, 4)) == pytest.approx(28.75)


def test_checks_behind_one_panel_go_as_a_block() -> None:
    problem = five({"B": {0}, "D": {0}}, (15,))
    found = best_checks(problem)
    assert spoken(found.order) == "EABDC"
    assert found.expected_s == pytest.approx(36.45)
    assert expected_seconds(problem, (1, 3, 4, 0, 2)) == pytest.approx(36.85)


def test_a_panel_that_is_shut_for_each_test_is_part_of_each_check() -> None:
    found = best_checks(five(extra=15))
    assert spoken(found.order) == "EACBD"
    assert found.expected_s == pytest.approx(38.9)


def test_the_case_of_the_method_text() -> None:
    problem = CheckProblem((1, 3), (10, 20), (frozenset(), frozenset({0})), (10,))
    assert expected_seconds(problem, (0, 1)) == expected_seconds(problem, (1, 0)) == 32.5
    assert best_checks(problem).order == (0, 1)


def made(chance: random.Random, suspects: int, laminar: bool) -> CheckProblem:
    if laminar:  # casing 0; doors 1 and 2 inside it; a lid 3 apart; a plate 4 behind door 2
        paths = [set(), {0}, {0, 1}, {0, 2}, {0, 2, 4}, {3}]
        behind = tuple(frozenset(chance.choice(paths)) for _ in range(suspects))
        openings = tuple(chance.randint(0, 20) for _ in range(5))
    else:
        behind = tuple(frozenset(chance.sample(range(4), chance.randint(0, 3))) for _ in range(suspects))
        openings = tuple(chance.randint(0, 20) for _ in range(4))
    weights = tuple(chance.randint(1, 9) for _ in range(suspects))
    return CheckProblem(weights, tuple(chance.randint(0, 12) for _ in range(suspects)), behind, openings)


@pytest.mark.parametrize("laminar", [True, False])
def test_the_best_sequence_of_all(laminar: bool) -> None:
    chance = random.Random(4)
    apart = 0
    for _ in range(300):
        problem = made(chance, chance.randint(1, 6), laminar)
        found = best_checks(problem)
        least = min(expected_seconds(problem, order) for order in itertools.permutations(range(len(problem.weights))))
        assert expected_seconds(problem, found.order) == least
        assert found.proved and found.expected_s == pytest.approx(float(least))
        apart += not nested(problem)
    assert (apart == 0) if laminar else (apart > 50)


def test_the_block_rule_and_the_search_by_sets_agree_on_larger_instances() -> None:
    chance = random.Random(5)
    for _ in range(20):
        problem = made(chance, 12, laminar=True)
        by_blocks = expected_seconds(problem, block_order(problem))
        by_sets = search_module._by_sets(problem, None)
        assert by_blocks == expected_seconds(problem, by_sets.order)


def test_a_search_that_is_stopped_says_how_far_it_may_be_from_best() -> None:
    chance = random.Random(6)
    stopped = 0
    while stopped < 20:
        problem = made(chance, 6, laminar=False)
        if nested(problem):
            continue
        stopped += 1
        early, best = best_checks(problem, lambda: True), best_checks(problem)
        assert early.weighted_s - early.gap <= best.weighted_s <= early.weighted_s


def test_numbers_that_cannot_be_are_refused() -> None:
    with pytest.raises(ValueError, match="weight"):
        CheckProblem((0,), (1,), (frozenset(),), ())
    with pytest.raises(ValueError, match="seconds"):
        CheckProblem((1,), (-1,), (frozenset(),), ())
    with pytest.raises(ValueError, match="opening"):
        CheckProblem((1,), (1,), (frozenset({0}),), ())
    with pytest.raises(ValueError, match="once"):
        expected_seconds(CheckProblem((1, 1), (1, 1), (frozenset(), frozenset()), ()), (0, 0))


@pytest.mark.parametrize("seed", range(40))
def test_checks_that_need_the_supply_are_weighed_exactly(seed: int) -> None:
    """Every sequence of small instances, timed by the definition: the supply comes back once something took it away."""
    made = random.Random(seed)
    count = made.randint(2, 5)
    problem = CheckProblem(
        tuple(made.randint(1, 9) for _ in range(count)),
        tuple(made.randint(0, 20) for _ in range(count)),
        tuple(frozenset(made.sample(range(3), made.randint(0, 3))) for _ in range(count)),
        tuple(made.randint(0, 15) for _ in range(3)),
        tuple(made.choice((0, 0, 25)) for _ in range(count)),
        frozenset({0}),
    )
    found = best_checks(problem)
    least = min(expected_seconds(problem, order) for order in itertools.permutations(range(count)))
    assert expected_seconds(problem, found.order) == least and found.expected_s == pytest.approx(float(least))


def test_a_check_that_needs_the_supply_goes_before_what_takes_it_away() -> None:
    """By hand: live A (10 s, 60 s to come back), B (10 s, behind 10 s of isolating): 10 and 30 s, or 20 and 90 s."""
    problem = CheckProblem((1, 1), (10, 10), (frozenset(), frozenset({0})), (10,), (60, 0), frozenset({0}))
    assert expected_seconds(problem, (0, 1)) == 20 and expected_seconds(problem, (1, 0)) == 55
    assert best_checks(problem).order == (0, 1)
