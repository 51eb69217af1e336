"""The independent check finds each kind of tampering, and says which."""

from dataclasses import replace

import pytest

from splitpin.access.check import OpeningFault, check_opening
from splitpin.access.problem import AccessProblem, Node
from splitpin.access.result import TARGETS, Opening
from splitpin.access.search import least_opening

PROBLEM = AccessProblem(
    nodes=(
        Node(2, charges=frozenset({0})),
        Node(3, ((frozenset({0}),),)),
        Node(1, ((frozenset({1}), frozenset({3})),)),
        Node(9, ((frozenset({2}),),)),
    ),
    charge_costs=(5, 7),
    targets=((frozenset({2}),),),
)
SOUND = Opening(
    nodes=frozenset({0, 1, 2}),
    choices=((TARGETS, 0, 0), (1, 0, 0), (2, 0, 0)),
    before=((0, 1), (1, 2)),
    charges=frozenset({0}),
    cost=11,
)


def test_a_sound_opening_passes() -> None:
    assert least_opening(PROBLEM).opening == SOUND
    assert check_opening(PROBLEM, SOUND) == []


@pytest.mark.parametrize(
    ("change", "faults"),
    [
        ({"cost": 10}, [OpeningFault("wrong-cost", (10, 11))]),
        ({"charges": frozenset()}, [OpeningFault("wrong-charges", (0,))]),
        ({"charges": frozenset({0, 1})}, [OpeningFault("wrong-charges", (1,))]),
        ({"before": ((0, 1),)}, [OpeningFault("wrong-before", (1, 2))]),
        ({"before": ((1, 2), (0, 1))}, [OpeningFault("not-sorted")]),
        ({"choices": ((1, 0, 0), (TARGETS, 0, 0), (2, 0, 0))}, [OpeningFault("not-sorted")]),
        ({"nodes": frozenset({0, 1, 2, 4})}, [OpeningFault("no-such-node", (4,))]),
        (
            {"nodes": frozenset({0, 1, 2, 3}), "cost": 20},
            [OpeningFault("choice-missing", (3, 0)), OpeningFault("not-asked-for", (3,))],
        ),
        (
            {"nodes": frozenset({1, 2}), "charges": frozenset(), "cost": 4},
            [OpeningFault("needed-node-missing", (1, 0, 0))],
        ),
        (
            {"choices": ((TARGETS, 0, 0), (2, 0, 0)), "before": ((1, 2),)},
            [OpeningFault("choice-missing", (1, 0)), OpeningFault("not-asked-for", (0,))],
        ),
        ({"choices": (*SOUND.choices, (2, 0, 0))}, [OpeningFault("choice-twice", (2, 0))]),
        ({"choices": (*SOUND.choices, (2, 1, 0))}, [OpeningFault("no-such-choice", (2, 1, 0))]),
        (
            {"choices": ((TARGETS, 0, 0), (1, 0, 0), (2, 0, 2)), "before": ((0, 1),)},
            [
                OpeningFault("no-such-choice", (2, 0, 2)),
                OpeningFault("choice-missing", (2, 0)),
                OpeningFault("not-asked-for", (0, 1)),
            ],
        ),
    ],
)
def test_a_tampered_opening_is_refused(change: dict[str, object], faults: list[OpeningFault]) -> None:
    assert check_opening(PROBLEM, replace(SOUND, **change)) == faults  # type: ignore[arg-type]


def test_two_nodes_that_wait_for_each_other_are_refused() -> None:
    circle = Opening(
        nodes=frozenset({2, 3}),
        choices=((TARGETS, 0, 0), (2, 0, 1), (3, 0, 0)),
        before=((2, 3), (3, 2)),
        charges=frozenset(),
        cost=10,
    )
    assert check_opening(PROBLEM, circle) == [OpeningFault("circular", (2, 3))]
