"""Small cases by hand, and how a search ends."""

import os
import subprocess
import sys

import pytest
from tests.benchmarks.appliances import appliance
from tests.ordering.random_problems import random_pairwise, random_problem

from splitpin.ordering.best import best_order, lower_bound
from splitpin.ordering.check import check_order
from splitpin.ordering.problem import Operation, OrderingProblem, PairwiseProblem
from splitpin.ordering.result import Status


def test_the_same_tool_is_used_up_before_it_is_put_down():
    problem = OrderingProblem(
        operations=(Operation(60, frozenset({0})), Operation(30, frozenset({1})), Operation(45, frozenset({0}))),
        pickup_s=(10, 10),
        travel_s=((0,),),
    )
    result = best_order(problem)
    assert (result.status, result.order, result.elapsed_s) == (Status.PROVED, (0, 2, 1), 155)
    assert (result.starts_s, result.ends_s, result.hands_on_s) == ((10, 70, 125), (70, 115, 155), 155)


def test_work_fills_the_wait():
    """Switch off (10 s, 100 s cooling), open the cover (30 s, cold only), sort the parts (60 s, any time)."""
    problem = OrderingProblem((Operation(10), Operation(30, after=((0, 100),)), Operation(60)), (), ())
    result = best_order(problem)
    assert (result.order, result.elapsed_s, result.hands_on_s) == ((0, 2, 1), 140, 100)
    assert lower_bound(problem) == 140


def test_the_worked_case_of_the_method_page():
    """Panel (20 s, spanner) before pump (30 s, driver); bracket (15 s, spanner); 10 s a pick-up; 100 s to drain."""
    for lag, elapsed, idle in ((0, 85, 0), (100, 160, 75)):
        problem = OrderingProblem(
            operations=(
                Operation(20, frozenset({0})),
                Operation(30, frozenset({1}), after=((0, lag),)),
                Operation(15, frozenset({0})),
            ),
            pickup_s=(10, 10),
            travel_s=(),
        )
        result = best_order(problem)
        assert (result.elapsed_s, result.hands_on_s) == (elapsed, elapsed - idle)
        assert check_order(problem, (0, 2, 1)).elapsed_s == elapsed
        assert lower_bound(problem) == elapsed


def test_a_wait_after_the_last_operation_does_not_count():
    problem = OrderingProblem((Operation(10), Operation(5, after=((0, 0),))), (), ())
    assert best_order(problem).elapsed_s == 15


def test_tools_are_fetched_in_idle_time_for_one_who_comes_after_a_wait():
    """The case that forbids doing everything in reach at once.

    Operation 3 takes no time at the side, where the worker begins. Done first, the worker walks to the front and,
    after the wait, back. Done during the wait, the way back falls into the wait, for operation 1 is done wherever one
    stands.
    """
    problem = OrderingProblem(
        operations=(
            Operation(10, position=0),
            Operation(1, after=((0, 60),)),
            Operation(25, position=1, after=((1, 0),)),
            Operation(0, position=1),
        ),
        pickup_s=(),
        travel_s=((0, 9), (9, 0)),
        start_position=1,
    )
    result = best_order(problem)
    assert (result.order, result.elapsed_s) == ((0, 3, 1, 2), 9 + 10 + 60 + 1 + 25)
    assert check_order(problem, (3, 0, 1, 2)).elapsed_s == result.elapsed_s + 9


def test_a_place_on_the_way_counts_only_where_the_way_goes_on_to_the_same_place():
    """Operation 3 has no position. Going by operation 1 at place 0 costs no detour to do it, but ends at place 0.

    From there place 1 is 6 s away, from place 2, where the worker stands at first, 3 s.
    """
    driver = frozenset({0})
    problem = OrderingProblem(
        operations=(
            Operation(10, driver),
            Operation(0, driver, 0),
            Operation(1, position=1, after=((0, 0),)),
            Operation(10, driver),
            Operation(10, driver, 1, ((1, 0), (3, 20))),
            Operation(0, driver, 2, ((1, 0), (2, 20))),
        ),
        pickup_s=(4,),
        travel_s=((0, 6, 3), (3, 0, 3), (0, 3, 0)),
        start_position=2,
    )
    result = best_order(problem)
    assert (result.status, result.order, result.elapsed_s) == (Status.PROVED, (3, 0, 2, 1, 4, 5), 50)


def test_a_long_chain_is_only_long():
    """Eight hundred operations one after the other, with two tools in turn."""
    chain = tuple(
        Operation(1, frozenset({index % 2}), after=((index - 1, 0),) if index else ()) for index in range(800)
    )
    result = best_order(OrderingProblem(chain, (2, 3), ()))
    assert (result.status, result.elapsed_s) == (Status.PROVED, 800 + 400 * 2 + 400 * 3)


def test_nothing_to_do_is_done():
    for problem in (OrderingProblem((), (), ()), PairwiseProblem((), (), (), ())):
        assert (best_order(problem).status, best_order(problem).order, lower_bound(problem)) == (Status.PROVED, (), 0)


def test_a_cycle_has_no_bound():
    problem = OrderingProblem((Operation(1, after=((1, 0),)), Operation(1, after=((0, 0),))), (), ())
    assert best_order(problem).causes == (0, 1, 0)
    with pytest.raises(ValueError, match="wait for each other in a cycle"):
        lower_bound(problem)


def test_forbidden_change_overs_that_leave_no_order_have_no_causes():
    problem = PairwiseProblem((1, 1), ((), ()), ((None, None), (None, None)), (0, 0))
    result = best_order(problem)
    assert (result.status, result.order, result.causes) == (Status.IMPOSSIBLE, (), ())


@pytest.mark.parametrize("waits", [0, 3])
@pytest.mark.parametrize("after", [0, 1, 10, 100, 1_000])
def test_a_search_stopped_on_its_way_brackets_the_best(waits, after):
    problem = appliance(13, 4, waits=waits)
    best = best_order(problem)
    assert best.status is Status.PROVED
    asked = 0

    def stop() -> bool:
        nonlocal asked
        asked += 1
        return asked > after

    stopped = best_order(problem, stop=stop)
    assert stopped.status is Status.BOUNDED
    assert sum(operation.seconds for operation in problem.operations) < stopped.bound_s
    assert stopped.bound_s <= best.elapsed_s <= stopped.elapsed_s
    assert not stopped.hands_on_proved
    assert not stopped.changes_proved
    assert check_order(problem, stopped.order).elapsed_s == stopped.elapsed_s
    assert stopped.explored < best.explored


def test_a_search_stopped_after_its_first_proof_keeps_it():
    """The elapsed time stays proved, the orders stay legal, and the bounds of the later tiers never overstate."""
    kept = 0
    for seed in range(300):
        problem = random_problem(seed, waits=True)
        best = best_order(problem)
        for after in range(0, 40, 3):
            asked = iter(range(10_000))
            found = best_order(problem, stop=lambda asked=asked, after=after: next(asked) >= after)
            assert check_order(problem, found.order).legal
            assert found.bound_s <= best.elapsed_s <= found.elapsed_s
            if found.elapsed_s == best.elapsed_s:
                assert found.hands_on_bound_s <= best.hands_on_s <= found.hands_on_s
            if found.hands_on_proved:
                assert found.changes_bound <= best.changes <= found.changes
            kept += found.status is Status.PROVED and not found.changes_proved
    assert kept > 10


def test_pairwise_orders_under_a_cutoff_are_proved_and_others_bounded():
    for seed in range(200):
        problem = random_pairwise(seed, waits=seed % 2 == 1)
        best = best_order(problem)
        if best.status is Status.IMPOSSIBLE:
            continue
        under, over = (best_order(problem, cutoff_s=best.elapsed_s + more) for more in (1, 0))
        assert (under.status, under.elapsed_s) == (Status.PROVED, best.elapsed_s)
        assert over.bound_s == best.elapsed_s
        assert not over.order or check_order(problem, over.order).elapsed_s == over.elapsed_s


def test_the_order_is_the_same_under_every_hash_seed():
    line = (
        "from splitpin.ordering.best import best_order\n"
        "from tests.benchmarks.appliances import appliance\n"
        "print([best_order(appliance(9, seed, waits=seed % 3)) for seed in range(6)])\n"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", line],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.getcwd()},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("0", "1", "424242")
    }
    assert len(told) == 1
