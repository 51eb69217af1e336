"""What the order search must manage on appliance-like instances, with the time it may take. Run with --benchmark."""

import statistics

import pytest
from tests.benchmarks.growth import runs

pytestmark = pytest.mark.benchmark


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
        assert run.seconds < 7


def test_appliances_with_two_waits_are_proved_in_time_at_the_median() -> None:
    done = runs(9, 15, 5.0, waits=2)
    assert statistics.median(run.seconds for run in done) < 0.1
