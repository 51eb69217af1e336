"""The estimate against 200,000 simulated visits: percentiles within 2 %, on every example job."""

from dataclasses import replace

import numpy as np
import pytest
from tests.examples import NAMES, example, example_job
from tests.timing.simulation import simulate

from splitpin.planning import plan_visit
from splitpin.timing import estimate

RUNS = 200_000


@pytest.mark.parametrize("name", NAMES)
def test_percentiles_are_within_two_per_cent_of_the_simulation(name: str) -> None:
    planned = example_job(name)
    found, runs = estimate(planned), simulate(planned, RUNS, seed=20)
    both = ((found.hands_on, runs.hands_on), (found.elapsed, runs.elapsed))
    for p in (50, 80, 90, 95):
        for spread, times in both:
            assert spread.percentile(p) == pytest.approx(float(np.percentile(times, p)), rel=0.02, abs=1e-6), p
        # waits that are nearly filled leave seconds, the difference of two long times: within 0.1 % of these
        waiting = pytest.approx(float(np.percentile(runs.waiting, p)), rel=0.02, abs=0.001 * float(runs.elapsed.mean()))
        assert found.waiting.percentile(p) == waiting, p
    for spread, times in both:
        assert spread.mean == pytest.approx(float(times.mean()), rel=0.005)
        assert spread.sd == pytest.approx(float(times.std()), rel=0.03)
        late = spread.percentile(80)
        assert spread.expected_over(late) == pytest.approx(float(np.maximum(times - late, 0).mean()), rel=0.05)


def test_the_estimate_holds_where_spreads_are_doubled() -> None:
    _, visit = example("circulator-head-drain-down")
    rows = {name: row.model_copy(update={"log_sd": 2 * row.log_sd}) for name, row in visit.library.time_spreads.items()}
    visit = type(visit)(visit.job, visit.firm, replace(visit.library, time_spreads=rows), visit.place)
    planned = plan_visit(visit)
    found, runs = estimate(planned), simulate(planned, RUNS, seed=23)
    for spread, times in ((found.hands_on, runs.hands_on), (found.elapsed, runs.elapsed)):
        for p in (50, 80, 90, 95):
            assert spread.percentile(p) == pytest.approx(float(np.percentile(times, p)), rel=0.02), p


def test_the_estimate_holds_where_much_goes_wrong() -> None:
    _, visit = example("pressurisation-check-valve")
    job = visit.job.model_copy(
        update={
            "job": visit.job.job.model_copy(update={"plant": "corroded", "site_factors": ("cramped", "second-storey")})
        }
    )
    visit = type(visit)(job, visit.firm, visit.library, visit.place)
    planned = plan_visit(visit)
    found, runs = estimate(planned), simulate(planned, RUNS, seed=22)
    for spread, times in ((found.hands_on, runs.hands_on), (found.elapsed, runs.elapsed)):
        for p in (50, 80, 90, 95):
            assert spread.percentile(p) == pytest.approx(float(np.percentile(times, p)), rel=0.02), p
