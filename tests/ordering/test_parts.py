"""The least set-ups of a part: by hand, and never above what any order pays once the rest is done."""

import itertools

from tests.ordering.random_problems import random_problem

from splitpin.ordering.best import best_order, lower_bound
from splitpin.ordering.hands import ToolsAndPositions
from splitpin.ordering.parts import least_setups
from splitpin.ordering.precedence import Precedence, topological_order
from splitpin.ordering.problem import Operation, OrderingProblem


def look(problem: OrderingProblem) -> tuple[ToolsAndPositions, Precedence]:
    after = [operation.after for operation in problem.operations]
    order = topological_order(after)
    assert order is not None
    precedence = Precedence(after, order, [operation.seconds for operation in problem.operations])
    return ToolsAndPositions(problem, precedence), precedence


def side_and_front() -> OrderingProblem:
    """After the drain: spanner (20 s) at the side, driver (10 s) at the front, both before chisel (10 s) at the side,
    that before the front again; from side to front takes 4 s.
    """
    spanner, driver, chisel = 0, 1, 2
    front, side = 0, 1
    return OrderingProblem(
        operations=(
            Operation(20, position=front),
            Operation(5, frozenset({spanner}), side, after=((0, 500),)),
            Operation(5, frozenset({driver}), front, after=((0, 500),)),
            Operation(5, frozenset({chisel}), side, after=((1, 0), (2, 0))),
            Operation(5, position=front, after=((3, 0),)),
        ),
        pickup_s=(20, 10, 10),
        travel_s=((0, 4), (4, 0)),
    )


def test_tools_and_positions_together_are_more_than_each_alone():
    """Alone: driver and chisel after the spanner, 20; side and front after the front, 8. No order does with both: who
    begins with the spanner begins at the side, and pays 12.
    """
    problem = side_and_front()
    hands, precedence = look(problem)
    drained = sum(1 << precedence.original.index(index) for index in (1, 2, 3, 4))
    assert hands.within(drained, precedence) == 20 + 8
    assert least_setups(hands, precedence, drained) == 20 + 12


def test_no_order_pays_less_for_a_part_that_comes_last():
    tight = 0
    for seed in range(300):
        problem = random_problem(seed, most=6)
        hands, precedence = look(problem)
        size = precedence.size
        least: dict[int, int] = {}
        for order in itertools.permutations(range(size)):
            done, stance, costs = 0, hands.start, []
            for index in order:
                if precedence.before[index] & ~done:
                    break
                row, nexts = hands.row(stance)
                costs.append(row[index])
                done, stance = done | 1 << index, nexts[index]
            else:
                for cut in range(size):
                    members = sum(1 << index for index in order[cut:])
                    paid = sum(costs[cut + 1 :])
                    least[members] = min(paid, least.get(members, paid))
        for members, paid in least.items():
            bound = least_setups(hands, precedence, members)
            assert hands.within(members, precedence) <= bound <= paid
            tight += bound == paid
    assert tight > 1_000


def test_what_follows_a_wait_is_bounded_in_full():
    result = best_order(side_and_front())
    assert result.elapsed_s == result.bound_s == 20 + 500 + 20 + 20 + 12
    assert lower_bound(side_and_front()) == 20 + 500 + 20 + 20 + 8
