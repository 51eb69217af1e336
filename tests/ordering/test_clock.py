"""The clock of an order, by hand and against the referee."""

import random

from tests.ordering.random_problems import random_problem

from splitpin.ordering.check import check_order
from splitpin.ordering.clock import turns
from splitpin.ordering.problem import Operation, OrderingProblem, PairwiseProblem

FRONT_THEN_SIDE = OrderingProblem(
    operations=(
        Operation(60, tools=frozenset({0}), position=0),
        Operation(30, tools=frozenset({0}), position=1, after=((0, 100),)),
    ),
    pickup_s=(5,),
    travel_s=((0, 8), (8, 0)),
)


def test_a_set_up_is_done_while_the_lag_still_runs() -> None:
    first, second = turns(FRONT_THEN_SIDE, (0, 1))
    assert (first.start_s, first.work_s, first.end_s, first.idle_s) == (0, 5, 65, 0)
    assert (second.start_s, second.work_s, second.end_s, second.idle_s) == (157, 165, 195, 92)
    assert (first.setup.picked, first.setup.walked_s, first.setup.seconds) == ({0}, 0, 5)
    assert (second.setup.picked, second.setup.walked_s, second.setup.seconds) == (frozenset(), 8, 8)


def test_an_order_that_starts_later_ends_later_by_as_much() -> None:
    assert [turn.end_s for turn in turns(FRONT_THEN_SIDE, (0, 1), 1000)] == [1065, 1195]


def test_no_operations_take_no_time() -> None:
    assert turns(OrderingProblem((), (), ((0,),)), ()) == ()


def test_change_overs_between_pairs_are_set_up_too() -> None:
    problem = PairwiseProblem((10, 20), ((), ()), ((None, 7), (3, None)), (1, 2))
    assert [(turn.work_s, turn.end_s) for turn in turns(problem, (1, 0))] == [(2, 22), (25, 35)]


def test_the_clock_and_the_referee_agree_on_any_legal_order() -> None:
    for seed in range(300):
        problem = random_problem(seed, waits=True)
        order = _some_order(problem, random.Random(seed))
        clock, seen = turns(problem, order), check_order(problem, order)
        assert seen.legal
        assert tuple(turn.work_s for turn in clock) == seen.starts_s
        assert tuple(turn.end_s for turn in clock) == seen.ends_s
        assert clock[-1].end_s - sum(turn.idle_s for turn in clock) == seen.hands_on_s


def _some_order(problem: OrderingProblem, chance: random.Random) -> tuple[int, ...]:
    order: list[int] = []
    while len(order) < len(problem.operations):
        order.append(
            chance.choice(
                [
                    index
                    for index, operation in enumerate(problem.operations)
                    if index not in order and all(earlier in order for earlier, _ in operation.after)
                ]
            )
        )
    return tuple(order)
