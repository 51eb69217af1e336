"""Least changes of one sort: by hand, and against every order of small problems."""

from tests.ordering.exhaustive import extremes
from tests.ordering.random_problems import random_problem

from splitpin.ordering.changes import LeastChanges, on_the_way
from splitpin.ordering.precedence import Precedence, topological_order
from splitpin.ordering.problem import Operation, OrderingProblem

FLAT = ((0, 10, 10), (10, 0, 10), (10, 10, 0))


def test_a_b_a_in_a_row_costs_three_changes_and_two_when_the_last_may_come_first():
    assert LeastChanges([1, 2, 1], FLAT, [0, 0b1, 0b11])(0, 0) == 30
    assert LeastChanges([1, 2, 1], FLAT, [0, 0b1, 0])(0, 0) == 20
    assert LeastChanges([1, 2, 1], FLAT, [0, 0b1, 0b11])(0b1, 1) == 20


def test_operations_of_no_kind_cost_nothing_but_keep_their_place():
    assert LeastChanges([1, -1, 1, 2], FLAT, [0, 0b1, 0b11, 0b1])(0, 0) == 20


def test_a_kind_between_two_others_is_on_the_way():
    line = ((0, 1, 2), (1, 0, 1), (2, 1, 0))
    assert on_the_way(line)[0] == [0, 0, 0b010]
    assert on_the_way(((0, 5, 5), (5, 0, 0), (5, 0, 0)))[0] == [0, 0, 0b010]


def test_least_changes_equal_the_best_of_all_orders_when_only_one_sort_costs():
    for seed in range(400):
        problem = random_problem(seed)
        for only_tools in (True, False):
            operations = tuple(
                Operation(0, operation.tools if only_tools else frozenset(), operation.position, operation.after)
                for operation in problem.operations
            )
            size = len(problem.travel_s)
            bare = OrderingProblem(
                operations=operations,
                pickup_s=problem.pickup_s,
                travel_s=((0,) * size,) * size if only_tools else problem.travel_s,
                start_position=problem.start_position,
                start_tools=problem.start_tools,
            )
            order = topological_order([operation.after for operation in operations])
            precedence = Precedence([operation.after for operation in operations], order, (0,) * len(order))
            kinds, cost, start = kinds_of(bare, order, only_tools)
            assert LeastChanges(kinds, cost, precedence.ancestors)(0, start) == extremes(bare)[0]


def kinds_of(problem, order, only_tools):
    if not only_tools:
        kinds = [problem.operations[index].position for index in order]
        return [-1 if kind is None else kind for kind in kinds], problem.travel_s, problem.start_position
    sets = sorted({tuple(sorted(operation.tools)) for operation in problem.operations if operation.tools})
    sets.append(tuple(sorted(problem.start_tools)))
    cost = [[sum(problem.pickup_s[tool] for tool in new if tool not in held) for new in sets] for held in sets]
    tools = [tuple(sorted(problem.operations[index].tools)) for index in order]
    return [sets.index(held) if held else -1 for held in tools], cost, len(sets) - 1
