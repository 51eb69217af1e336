"""Repair times as log-normals, worked by hand and against SciPy."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from splitpin.timing.repair_times import RepairTimes, fitted, over_all, weighted_mean


def test_one_and_e_squared_hours() -> None:
    found = fitted([1.0, math.e**2])
    assert found == pytest.approx((1.0, math.sqrt(2)))
    assert found.median == pytest.approx(math.e)


@given(st.lists(st.floats(min_value=0.1, max_value=100), min_size=2, max_size=30, unique=True))
def test_fit_and_figures_are_scipys(times: list[float]) -> None:
    found = fitted(times)
    assert found.sd_log == pytest.approx(float(np.std(np.log(times), ddof=1)))
    law = stats.lognorm(s=found.sd_log, scale=math.exp(found.mean_log))
    assert found.mean == pytest.approx(float(law.mean()))
    for p in (50, 90, 95):
        assert found.within(p) == pytest.approx(float(law.ppf(p / 100)))


def test_two_kinds_of_repair_spread_within_and_between() -> None:
    whole = over_all([3, 1], [RepairTimes(1.0, 0.2), RepairTimes(2.0, 0.4)])
    assert whole.mean_log == pytest.approx(1.25)
    assert whole.sd_log**2 == pytest.approx(0.75 * 0.2**2 + 0.25 * 0.4**2 + 0.75 * 0.25**2 + 0.25 * 0.75**2)
    draws = np.random.Generator(np.random.PCG64(5)).standard_normal((2, 400_000))
    logs = np.where(np.arange(400_000) % 4 < 3, 1.0 + 0.2 * draws[0], 2.0 + 0.4 * draws[1])
    assert whole.sd_log == pytest.approx(float(logs.std()), rel=5e-3)


def test_rates_weigh() -> None:
    assert weighted_mean([1, 3], [10.0, 20.0]) == 17.5
