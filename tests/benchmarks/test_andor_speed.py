"""What the search for the least opening must manage at the published sizes, answers and time. Run with --benchmark."""

import statistics

import pytest
from tests.benchmarks.andor_made import timed

from splitpin.access.check import check_opening

pytestmark = pytest.mark.benchmark


@pytest.mark.parametrize("tasks", [60, 73, 133])
@pytest.mark.parametrize("circles", [False, True], ids=["without circles", "with circles"])
def test_every_target_is_least_and_in_time(tasks: int, circles: bool) -> None:
    """Every opening is replayed by the check; every ninth cost is worked again by a mixed-integer programme."""
    pytest.importorskip("highspy", reason="the referee is worked by HiGHS")
    from tests.access.referee import least_cost

    seconds, sizes = [], []
    for number, (problem, answer, took) in enumerate(timed(tasks, seeds=3, circles=circles)):
        assert answer.status == "proved"
        assert answer.opening is not None
        assert check_opening(problem, answer.opening) == []
        if number % 9 == 0:
            assert answer.opening.cost == least_cost(problem)
        seconds.append(took)
        sizes.append(len(answer.opening.nodes))
    assert len(seconds) == 3 * tasks
    assert statistics.median(seconds) < 0.02
    assert max(seconds) < 2
    assert max(sizes) > tasks / 5  # the instances ask for more than a handful of tasks
