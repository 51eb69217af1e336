"""The best order equals the best of all orders, on a thousand small problems of each shape; the check agrees each
time.
"""

from itertools import pairwise

import pytest
from tests.ordering.exhaustive import all_orders, extremes
from tests.ordering.random_problems import random_pairwise, random_problem

from splitpin.ordering.best import best_order, lower_bound
from splitpin.ordering.check import check_order
from splitpin.ordering.result import OrderResult, Status


def assert_verified(problem, result: OrderResult) -> None:
    seen = check_order(problem, result.order)
    assert seen.legal
    assert (seen.starts_s, seen.ends_s) == (result.starts_s, result.ends_s)
    assert (seen.elapsed_s, seen.hands_on_s, seen.changes) == (result.elapsed_s, result.hands_on_s, result.changes)


def assert_proved_in_all_three(seed: int, result: OrderResult, least: tuple[int, int, int]) -> None:
    """Least elapsed, of these least hands-on, of these fewest changes; each with its own proof."""
    assert (seed, result.elapsed_s, result.hands_on_s, result.changes) == (seed, *least)
    assert (result.bound_s, result.hands_on_bound_s, result.changes_bound) == least
    assert (result.status, result.hands_on_proved, result.changes_proved) == (Status.PROVED, True, True)


@pytest.mark.parametrize("waits", [False, True], ids=["set-ups", "set-ups-and-waits"])
def test_tools_and_positions_agree_with_all_orders(waits):
    for seed in range(1000):
        problem = random_problem(seed, waits=waits)
        result = best_order(problem)
        least = min(all_orders(problem))
        assert_proved_in_all_three(seed, result, least)
        assert lower_bound(problem) <= least[0]
        assert_verified(problem, result)


@pytest.mark.parametrize("waits", [False, True], ids=["change-overs", "change-overs-and-waits"])
def test_pairwise_change_overs_agree_with_all_orders(waits):
    impossible = 0
    for seed in range(1000):
        problem = random_pairwise(seed, waits=waits)
        result = best_order(problem)
        orders = all_orders(problem)
        if not orders:
            impossible += 1
            assert (seed, result.status, result.order, result.causes) == (seed, Status.IMPOSSIBLE, (), ())
            continue
        assert_proved_in_all_three(seed, result, min(orders))
        assert lower_bound(problem) <= min(orders)[0]
        assert_verified(problem, result)
    assert 10 < impossible < 500  # both ends are tried


def test_an_order_that_beats_the_cutoff_is_proved_and_otherwise_only_bounded():
    for seed in range(300):
        problem = random_problem(seed, waits=seed % 2 == 1)
        least, _ = extremes(problem)
        for cutoff in (least + 1, least, max(least - 1, 0), least // 2):
            result = best_order(problem, cutoff_s=cutoff)
            if least < cutoff:
                assert (result.status, result.elapsed_s) == (Status.PROVED, least)
            else:
                assert cutoff <= result.bound_s <= least <= result.elapsed_s
                assert result.status is (Status.PROVED if result.bound_s == result.elapsed_s else Status.BOUNDED)
            assert_verified(problem, result)


def test_a_cycle_is_shown_shortest_first():
    for seed in range(200):
        problem = random_pairwise(seed)
        size = len(problem.seconds)
        after = list(problem.after)
        last = max(range(size), key=lambda index: len(after[index]))
        if not after[last]:
            continue
        first = after[last][0][0]
        after[first] = (*after[first], (last, 0))
        cyclic = type(problem)(problem.seconds, tuple(after), problem.change_s, problem.start_change_s)
        result = best_order(cyclic)
        assert result.status is Status.IMPOSSIBLE
        assert result.causes[0] == result.causes[-1]
        assert len(result.causes) == 3
        assert all(earlier in dict(after[later]) for earlier, later in pairwise(result.causes))
