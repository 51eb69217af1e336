"""The three tiers by hand: least elapsed, then fewest hands-on seconds, then fewest changes."""

from splitpin.ordering.best import best_order
from splitpin.ordering.problem import Operation, OrderingProblem

DRIVER, SPANNER = frozenset({0}), frozenset({1})


def test_a_wait_that_must_be_sat_out_is_no_reason_to_pick_up_twice():
    """An hour of cooling: 70 s of work fit in any order; driver, driver, spanner takes a pick-up less."""
    problem = OrderingProblem(
        operations=(
            Operation(5),
            Operation(20, DRIVER, after=((0, 0),)),
            Operation(20, SPANNER, after=((0, 0),)),
            Operation(30, DRIVER, after=((0, 0),)),
            Operation(5, after=((0, 3600),)),
        ),
        pickup_s=(10, 10),
        travel_s=(),
    )
    result = best_order(problem)
    assert (result.elapsed_s, result.hands_on_s, result.changes) == (5 + 3600 + 5, 5 + 20 + 20 + 30 + 5 + 20, 2)
    assert result.hands_on_proved
    assert result.changes_proved


def test_the_elapsed_time_comes_first_even_where_it_takes_a_pick_up_more():
    """The driver starts a wait of 100 s and ends it; in between 90 s with the spanner cost two pick-ups and no time."""
    problem = OrderingProblem(
        operations=(Operation(10, DRIVER), Operation(10, DRIVER, after=((0, 100),)), Operation(90, SPANNER)),
        pickup_s=(5, 5),
        travel_s=(),
    )
    result = best_order(problem)
    assert (result.order, result.elapsed_s, result.hands_on_s) == ((0, 2, 1), 5 + 10 + 100 + 10, 110 + 15)


def test_changes_that_take_no_time_are_counted():
    """Tools that are at hand for nothing: a, b, a makes three changes, a, a, b two."""
    problem = OrderingProblem(
        operations=(Operation(1, DRIVER), Operation(1, SPANNER), Operation(1, DRIVER)), pickup_s=(0, 0), travel_s=()
    )
    result = best_order(problem)
    assert (result.order, result.elapsed_s, result.changes, result.changes_bound) == ((0, 2, 1), 3, 2, 2)
