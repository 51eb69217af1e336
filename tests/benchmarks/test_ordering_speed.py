"""What the order search must manage on appliance-like instances, with the time it may take. Run with --benchmark.

LEAST_S were proved by an earlier search with other rules; a search that is quick and wrong fails here.
"""

import statistics
import time

import pytest
from tests.benchmarks.appliances import appliance
from tests.benchmarks.growth import runs

from splitpin.ordering.best import best_order

pytestmark = pytest.mark.benchmark

LEAST_S = {
    (18, 0): (1466, 1536, 1194, 1454, 1479),
    (24, 0): (1393, 1625, 1642),
    (9, 2): (605, 724, 1272, 794, 1377, 790),
    (12, 2): (1316, 888, 1313, 1470),
}
"""Least elapsed seconds by components and waits, for the seeds from 0."""


@pytest.mark.parametrize(("components", "waits"), LEAST_S)
def test_the_answers_are_those_proved_before(components: int, waits: int) -> None:
    least = LEAST_S[components, waits]
    for run, elapsed_s in zip(runs(components, len(least), 20.0, waits), least, strict=True):
        assert run.result.bound_s <= elapsed_s <= run.result.elapsed_s
        assert run.gap == 0


@pytest.mark.parametrize(
    ("components", "seeds", "median_s"), [(6, 15, 0.01), (9, 15, 0.01), (18, 15, 0.5), (24, 9, 5.0)]
)
def test_appliances_are_proved_in_time_at_the_median(components: int, seeds: int, median_s: float) -> None:
    done = runs(components, seeds, 8 * median_s + 1)
    assert statistics.median(run.seconds for run in done) < median_s
    assert sum(run.gap == 0 for run in done) > seeds / 2


def test_a_hundred_and_twenty_operations_are_within_five_percent_after_five_seconds() -> None:
    for run in runs(36, 6, 5.0):
        assert run.operations >= 105
        assert run.gap <= 0.05
        assert run.seconds < 5.2


def test_a_small_appliance_is_proved_in_all_three_at_the_median_in_no_time() -> None:
    done = runs(9, 15, 5.0, elapsed_only=False)
    assert statistics.median(run.seconds for run in done) < 0.03
    assert all(run.result.changes_proved for run in done)


def test_appliances_with_two_waits_are_proved_in_time_at_the_median() -> None:
    done = runs(9, 15, 5.0, waits=2)
    assert statistics.median(run.seconds for run in done) < 0.1


@pytest.mark.parametrize(("components", "waits"), [(24, 0), (45, 0), (18, 2), (36, 3)])
@pytest.mark.parametrize("limit_s", [0.3, 2.0])
def test_a_search_ends_within_a_fifth_of_a_second_of_being_told_to(components: int, waits: int, limit_s: float) -> None:
    problem = appliance(components, 0, waits=waits)
    begun = time.process_time()
    best_order(problem, stop=lambda: time.process_time() - begun > limit_s)
    assert time.process_time() - begun < limit_s + 0.2
