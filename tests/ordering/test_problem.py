"""Problems say what is wrong with them when they are made."""

import re

import pytest

from splitpin.ordering.problem import Operation, OrderingProblem, PairwiseProblem, closed_travel


def tools_problem(**changes) -> OrderingProblem:
    values = {"operations": (Operation(5),), "pickup_s": (4,), "travel_s": ((0,),), **changes}
    return OrderingProblem(**values)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"pickup_s": (-1,)}, "pickup_s must be 0 or more"),
        ({"start_position": 1}, "start_position 1 is not a position"),
        ({"start_tools": frozenset({1})}, "start_tools names a tool without pickup_s"),
        ({"operations": (Operation(5, frozenset({1})),)}, "operation 0 uses a tool without pickup_s"),
        ({"operations": (Operation(5, position=1),)}, "operation 0 is at a position without travel_s"),
        ({"operations": (Operation(5, after=((1, 0),)),)}, "operation 0 comes after an operation that does not exist"),
        ({"travel_s": ((1,),)}, "travel_s must be a square of 0 and more with a zero diagonal"),
        ({"travel_s": ((0, 1),)}, "travel_s must be a square of 0 and more with a zero diagonal"),
        ({"travel_s": ((0, -1), (1, 0))}, "travel_s must be a square of 0 and more with a zero diagonal"),
    ],
)
def test_a_problem_with_tools_refuses(changes, message):
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        tools_problem(**changes)


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"seconds": (-1,)}, "seconds must be 0 or more"),
        ({"seconds": (1, 2)}, "seconds, after, change_s and start_change_s must have the same length"),
        ({"after": (((0, -1),),)}, "a lag must be 0 or more"),
        ({"after": (((2, 0),),)}, "operation 0 comes after an operation that does not exist"),
        ({"change_s": ((-1,),)}, "change-overs must be a square of None or 0 and more"),
        ({"change_s": ((1, 2),)}, "change-overs must be a square of None or 0 and more"),
    ],
)
def test_a_pairwise_problem_refuses(changes, message):
    values = {"seconds": (1,), "after": ((),), "change_s": ((None,),), "start_change_s": (0,), **changes}
    with pytest.raises(ValueError, match=f"^{re.escape(message)}$"):
        PairwiseProblem(**values)


def test_an_operation_refuses_negative_seconds_and_lags():
    with pytest.raises(ValueError, match="seconds must be 0 or more, not -3"):
        Operation(-3)
    with pytest.raises(ValueError, match="a lag must be 0 or more"):
        Operation(3, after=((0, -1),))


def test_a_quicker_detour_takes_the_place_of_the_direct_way():
    assert closed_travel(((0, 3, 20), (9, 0, 4), (1, 30, 0))) == ((0, 3, 7), (5, 0, 4), (1, 4, 0))
    problem = tools_problem(travel_s=((0, 3, 20), (9, 0, 4), (1, 30, 0)))
    assert problem.travel_s[0][2] == 7


def test_positions_may_be_left_out_altogether():
    assert tools_problem(travel_s=()).travel_s == ()
