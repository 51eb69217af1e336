"""What is remembered of a half is what the ordering says of it."""

from tests.ordering.random_problems import random_problem

from splitpin.ordering.best import best_order
from splitpin.planning.best.halves import Halves


def test_a_half_gives_its_best_order_once_and_for_every_cutoff() -> None:
    for seed in range(200):
        problem = random_problem(seed, waits=True)
        least = best_order(problem).elapsed_s
        halves = Halves()
        assert halves.bound(problem) <= least
        for cutoff in (least - 1, least, least + 1, None, least - 1, least + 1):
            found = halves.best(problem, cutoff)
            beaten = cutoff is None or least < cutoff
            assert (found is not None) == beaten
            assert found is None or found.elapsed_s == least
            assert halves.bound(problem) <= least
        assert halves.bound(problem) == least


def test_a_stopped_half_claims_no_more_than_it_has_proved() -> None:
    for seed in range(200):
        problem = random_problem(seed, waits=True)
        halves = Halves(lambda: True)
        found = halves.best(problem, None)
        assert found is not None
        assert halves.bound(problem) <= best_order(problem).elapsed_s <= found.elapsed_s
