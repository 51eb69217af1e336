"""Twins: which operations take turns, and which only look alike."""

from splitpin.ordering.best import best_order
from splitpin.ordering.check import check_order
from splitpin.ordering.precedence import Precedence, topological_order
from splitpin.ordering.problem import Operation, OrderingProblem
from splitpin.ordering.twins import turns_of_twins


def twins(*operations: Operation) -> set[tuple[int, int]]:
    precedence = Precedence(
        [operation.after for operation in operations],
        topological_order([operation.after for operation in operations]) or (),
        [operation.seconds for operation in operations],
    )
    original = precedence.original
    found = turns_of_twins([operations[index] for index in original], precedence)
    return {(original[first], original[second]) for first, second in found}


SCREW = frozenset({0})


def test_three_screws_alike_take_turns_by_number():
    found = twins(Operation(65, SCREW, 0), Operation(65, SCREW, 0), Operation(65, SCREW, 0))
    assert {(0, 1), (1, 2)} <= found <= {(0, 1), (1, 2), (0, 2)}


def test_what_is_reached_earlier_goes_first():
    assert twins(Operation(9), Operation(65, SCREW, 0, after=((0, 0),)), Operation(65, SCREW, 0)) == {(2, 1)}


def test_other_seconds_tools_places_waits_or_followers_on_both_sides_are_no_twins():
    screw = Operation(65, SCREW, 0)
    assert not twins(screw, Operation(60, SCREW, 0))
    assert not twins(screw, Operation(65, frozenset({1}), 0))
    assert not twins(screw, Operation(65, SCREW, 1))
    assert not twins(screw, screw, Operation(1, after=((0, 30),)))
    assert not twins(Operation(65, SCREW, 0, after=((2, 0),)), screw, Operation(9), Operation(5, after=((0, 0),)))


def test_the_order_is_given_in_the_numbers_of_the_question():
    screws = tuple(Operation(40, SCREW, after=((4, 0),) if index == 0 else ()) for index in range(3))
    problem = OrderingProblem((*screws, Operation(10), Operation(9), Operation(5, after=((3, 100),))), (7,), ())
    result = best_order(problem)
    seen = check_order(problem, result.order)
    assert (seen.legal, seen.elapsed_s, seen.changes) == (True, result.elapsed_s, 1)
