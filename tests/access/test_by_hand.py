"""Cases small enough to check on paper."""

from dataclasses import replace

import pytest

from splitpin.access.bound import Bound
from splitpin.access.causes import why_not
from splitpin.access.check import causes_hold, check_opening
from splitpin.access.listing import openings
from splitpin.access.problem import AccessProblem, Node
from splitpin.access.reduction import reduce
from splitpin.access.result import TARGETS, AccessResult, Cause, Opening
from splitpin.access.search import least_opening


def one_of(*alternatives: set[int]) -> tuple[frozenset[int], ...]:
    return tuple(frozenset(alternative) for alternative in alternatives)


SHARED = AccessProblem(
    nodes=(Node(4), Node(3), Node(1, (one_of({0}, {1}),)), Node(1, (one_of({0}),))),
    targets=(one_of({2}), one_of({3})),
)


def test_a_part_two_branches_share_is_paid_once() -> None:
    assert least_opening(SHARED) == AccessResult(
        "proved",
        Opening(
            nodes=frozenset({0, 2, 3}),
            choices=((TARGETS, 0, 0), (TARGETS, 1, 0), (2, 0, 0), (3, 0, 0)),
            before=((0, 2), (0, 3)),
            charges=frozenset(),
            cost=6,
        ),
        6,
    )


def test_the_pump_behind_casing_and_tray_of_the_method_document() -> None:
    """0 casing, 1 hose, 2 tray aside, 3 tray out with its gas proof, 4 pump in place, 5 pump at the bench."""
    nodes = (
        Node(120),
        Node(60, (one_of({0}),)),
        Node(240, (one_of({0}), one_of({1}))),
        Node(180, (one_of({0}),), frozenset({0})),
        Node(400, (one_of({2}, {3}),)),
        Node(250, (one_of({3}),)),
    )
    pump = AccessProblem(nodes, (300,), (one_of({4}, {5}),))
    assert [opening.cost for opening in openings(pump)] == [820, 850, 1000]
    reduction = reduce(pump)
    assert reduction is not None
    rest = Bound(reduction).rest(reduction.forced, reduction.raised)
    assert rest is not None
    assert (reduction.price(reduction.forced), rest.cost) == (120, 250 + 150 + 300)
    tray_too = least_opening(replace(pump, targets=(*pump.targets, one_of({3}))))
    assert (tray_too.status, tray_too.bound) == ("proved", 850)


def test_every_opening_comes_in_cost_order() -> None:
    assert [(opening.cost, sorted(opening.nodes)) for opening in openings(SHARED)] == [
        (6, [0, 2, 3]),
        (9, [0, 1, 2, 3]),
    ]


def test_a_fixed_charge_two_nodes_bring_is_paid_once() -> None:
    """Two joints on one gas circuit (proof 50) beat one on gas and one on water (proof 20) at 10 more."""
    problem = AccessProblem(
        nodes=(Node(5, charges=frozenset({0})), Node(7, charges=frozenset({0})), Node(4, charges=frozenset({1}))),
        charge_costs=(50, 20),
        targets=(one_of({0}), one_of({1}, {2})),
    )
    best = least_opening(problem).opening
    assert best is not None
    assert (best.cost, sorted(best.nodes), sorted(best.charges)) == (62, [0, 1], [0])


def test_same_nodes_in_another_order_are_another_opening() -> None:
    problem = AccessProblem(nodes=(Node(2), Node(1, (one_of(set(), {0}),))), targets=(one_of({0}), one_of({1})))
    assert [(opening.cost, opening.before) for opening in openings(problem)] == [(3, ()), (3, ((0, 1),))]


def test_choices_that_lean_on_each_other_are_never_returned() -> None:
    """0 behind 1 or 2, 1 behind 0 or 3: the free-looking pair {0, 1} has no order."""
    problem = AccessProblem(
        nodes=(Node(1, (one_of({1}, {2}),)), Node(1, (one_of({0}, {3}),)), Node(5), Node(6)),
        targets=(one_of({0}),),
    )
    assert [(opening.cost, opening.before) for opening in openings(problem)] == [
        (6, ((2, 0),)),
        (8, ((1, 0), (3, 1))),
    ]
    assert least_opening(problem).bound == 6


def test_without_targets_nothing_is_opened() -> None:
    empty = Opening(frozenset(), (), (), frozenset(), 0)
    assert least_opening(AccessProblem(nodes=(Node(3),))) == AccessResult("proved", empty, 0)
    assert list(openings(AccessProblem(nodes=(Node(3),)))) == [empty]


def test_a_need_without_alternatives_is_named_down_to_its_node() -> None:
    problem = AccessProblem(
        nodes=(Node(1, (one_of({1}, {2}),)), Node(1, ((),)), Node(1, (one_of({0}),)), Node(1)),
        targets=(one_of({3}), one_of({0})),
    )
    causes = (
        Cause(TARGETS, 1, (0,), circular=False),
        Cause(0, 0, (1, 2), circular=True),
        Cause(1, 0, (), circular=False),
        Cause(2, 0, (0,), circular=True),
    )
    assert why_not(problem) == causes
    assert least_opening(problem) == AccessResult("impossible", None, 0, causes)
    assert list(openings(problem)) == []
    assert causes_hold(problem, causes)


def test_the_smaller_of_two_explanations_is_given() -> None:
    """Node 0 is shut for two reasons: a chain of three, and one need nothing can meet."""
    problem = AccessProblem(
        nodes=(
            Node(1, (one_of({1}), one_of({4}))),
            Node(1, (one_of({2}),)),
            Node(1, (one_of({3}),)),
            Node(1, ((),)),
            Node(1, ((),)),
        ),
        targets=(one_of({0}),),
    )
    assert why_not(problem) == (
        Cause(TARGETS, 0, (0,), circular=False),
        Cause(0, 1, (4,), circular=False),
        Cause(4, 0, (), circular=False),
    )


def test_a_node_behind_itself_is_circular() -> None:
    problem = AccessProblem(nodes=(Node(1, (one_of({0}),)),), targets=(one_of({0}),))
    assert why_not(problem) == (
        Cause(TARGETS, 0, (0,), circular=False),
        Cause(0, 0, (0,), circular=True),
    )


def test_causes_that_prove_nothing_are_not_accepted() -> None:
    problem = AccessProblem(nodes=(Node(1, (one_of({1}),)), Node(1)), targets=(one_of({0}),))
    assert why_not(problem) == ()
    assert not causes_hold(problem, ())
    assert not causes_hold(problem, (Cause(TARGETS, 0, (0,), False),))
    assert not causes_hold(problem, (Cause(TARGETS, 0, (0,), False), Cause(0, 0, (1,), False)))
    assert not causes_hold(problem, (Cause(TARGETS, 0, (1,), False), Cause(1, 0, (), False)))


def test_stopping_keeps_the_best_so_far_and_a_proved_bound() -> None:
    """The seven lines of the Fano plane, a point from each: any two lines share a point, three points are needed."""
    lines = ({0, 1, 2}, {0, 3, 4}, {0, 5, 6}, {1, 3, 5}, {1, 4, 6}, {2, 3, 6}, {2, 4, 5})
    plane = AccessProblem(nodes=(Node(1),) * 7, targets=tuple(one_of(*({point} for point in line)) for line in lines))
    stopped = least_opening(plane, stop=lambda: True)
    assert stopped.status == "bounded"
    assert stopped.opening is not None
    assert check_opening(plane, stopped.opening) == []
    assert 0 < stopped.bound < 3 <= stopped.opening.cost
    assert stopped.gap == stopped.opening.cost - stopped.bound
    proved = least_opening(plane)
    assert (proved.status, proved.bound, proved.gap) == ("proved", 3, 0)
    assert list(openings(plane, stop=lambda: True)) == []


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ({"nodes": (Node(-1),)}, "node 0 has the negative cost -1"),
        ({"nodes": (), "charge_costs": (-2,)}, "charge 0 has the negative cost -2"),
        ({"nodes": (Node(1, charges=frozenset({0})),)}, "node 0 names a charge outside 0..-1: [0]"),
        ({"nodes": (Node(1, (one_of({1}),)),)}, "node 0 names a node outside 0..0: [1]"),
        ({"nodes": (Node(1),), "targets": (one_of({-1}),)}, "a target names a node outside 0..0: [-1]"),
    ],
)
def test_numbers_that_mean_nothing_are_refused(arguments: dict[str, object], message: str) -> None:
    with pytest.raises(ValueError) as caught:
        AccessProblem(**arguments)  # type: ignore[arg-type]
    assert str(caught.value) == message
