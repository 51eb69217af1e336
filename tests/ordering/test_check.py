"""The check by hand: what it recomputes and every way in which an order can be illegal."""

from splitpin.ordering.check import Verification, check_order
from splitpin.ordering.problem import Operation, OrderingProblem, PairwiseProblem

TWO_SPANNERS = OrderingProblem(
    operations=(
        Operation(60, frozenset({0}), 0),
        Operation(30, frozenset({1}), 0, after=((0, 100),)),
        Operation(5, position=1),
    ),
    pickup_s=(10, 10),
    travel_s=((0, 7), (7, 0)),
)


def test_seconds_are_added_up_from_the_definition():
    """0: 10..70; 2: walk 7, 77..82; 1: walk back 7 and pick up 10 while waiting, 170..200."""
    assert check_order(TWO_SPANNERS, (0, 2, 1)) == Verification(
        starts_s=(10, 77, 170), ends_s=(70, 82, 200), elapsed_s=200, hands_on_s=10 + 60 + 7 + 5 + 17 + 30, changes=4
    )


def test_an_operation_left_out_or_done_twice_or_unknown_is_named():
    assert check_order(TWO_SPANNERS, (0, 0, 7)) == Verification(missing=(1, 2), repeated=(0, 7))


def test_a_broken_rule_is_named():
    seen = check_order(TWO_SPANNERS, (1, 2, 0))
    assert (seen.legal, seen.broken, seen.elapsed_s) == (False, ((0, 1),), 0)


def test_a_forbidden_change_over_is_named():
    problem = PairwiseProblem(
        seconds=(1, 1), after=((), ()), change_s=((None, None), (4, None)), start_change_s=(2, None)
    )
    assert check_order(problem, (0, 1)).forbidden == ((0, 1),)
    assert check_order(problem, (1, 0)).forbidden == ((-1, 1),)
    assert not check_order(problem, (0, 1)).legal


def test_the_order_of_nothing_is_legal_and_takes_no_time():
    nothing = OrderingProblem((), (), ())
    assert check_order(nothing, ()) == Verification()
    assert check_order(nothing, ()).legal
