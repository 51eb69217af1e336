"""Spreads against the distributions of SciPy, and against cases worked by hand."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from splitpin.timing.moments import Moments, mixed, of_lognormal, perhaps, total
from splitpin.timing.spread import certain, mixture, sample, three_moments, two_moments

MEANS = st.floats(min_value=1, max_value=1e5)
LOG_SDS = st.floats(min_value=0.01, max_value=1.2)


def test_two_thirds_nothing_and_one_third_three_minutes() -> None:
    assert perhaps(1 / 3, Moments(3.0)) == pytest.approx(Moments(1.0, 2.0, 2.0))


def test_independent_times_add_mean_and_variance() -> None:
    assert total([Moments(10.0, 4.0), Moments(20.0, 5.0)]) == Moments(30.0, 9.0, 0.0)


@given(mean=MEANS, log_sd=LOG_SDS)
def test_moments_of_a_lognormal_are_scipys(mean: float, log_sd: float) -> None:
    law = stats.lognorm(s=log_sd, scale=mean / math.exp(log_sd**2 / 2))
    first, variance, skewness = law.stats(moments="mvs")
    found = of_lognormal(mean, log_sd)
    assert found.mean == pytest.approx(float(first))
    assert found.variance == pytest.approx(float(variance), rel=1e-6)
    assert found.third == pytest.approx(float(skewness * variance**1.5), rel=1e-6)


@given(mean=MEANS, log_sd=LOG_SDS, shift=st.floats(min_value=0, max_value=1e4))
def test_three_moments_give_back_the_moved_lognormal(mean: float, log_sd: float, shift: float) -> None:
    moments = of_lognormal(mean, log_sd)
    law = three_moments(moments._replace(mean=mean + shift))
    referee = stats.lognorm(s=log_sd, scale=mean / math.exp(log_sd**2 / 2), loc=shift)
    for p in (0.05, 0.5, 0.8, 0.95):
        assert law.at(float(stats.norm.ppf(p))) == pytest.approx(float(referee.ppf(p)), rel=1e-4)


@given(mean=MEANS, log_sd=LOG_SDS)
def test_chance_and_size_of_an_overrun_are_scipys(mean: float, log_sd: float) -> None:
    spread = mixture([(1.0, of_lognormal(mean, log_sd))])
    law = stats.lognorm(s=log_sd, scale=mean / math.exp(log_sd**2 / 2))
    for factor in (0.5, 1.0, 1.6):
        assert spread.chance_over(factor * mean) == pytest.approx(float(law.sf(factor * mean)), abs=1e-6)
    limit = 1.2 * mean
    d = (math.log(mean) - log_sd**2 / 2 - math.log(limit)) / log_sd
    excess = mean * float(stats.norm.cdf(d + log_sd)) - limit * float(stats.norm.cdf(d))
    assert spread.expected_over(limit) == pytest.approx(excess, rel=1e-4, abs=1e-6 * mean)


def test_mean_100_and_deviation_20_have_their_median_at_98() -> None:
    law = two_moments(100.0, 20.0)
    assert law.sigma == pytest.approx(0.198, abs=5e-4)
    assert law.at(0.0) == pytest.approx(98.06, abs=5e-3)


def test_a_mixture_of_two_is_scipys_mixture() -> None:
    usual, bad = of_lognormal(100.0, 0.2), of_lognormal(180.0, 0.3)
    spread = mixture([(0.9, usual), (0.1, bad)])
    laws = [stats.lognorm(s=s, scale=m / math.exp(s**2 / 2)) for m, s in ((100.0, 0.2), (180.0, 0.3))]
    for p in (50, 80, 90, 95, 99):
        time = spread.percentile(p)
        assert 0.9 * laws[0].cdf(time) + 0.1 * laws[1].cdf(time) == pytest.approx(p / 100)
    assert spread.mean == pytest.approx(108.0)
    assert mixed([(0.9, usual), (0.1, bad)]).variance == pytest.approx(spread.sd**2)


def test_a_sample_has_numpys_percentiles() -> None:
    times = [float(n * n % 101) for n in range(1, 90)]
    spread = sample(times)
    for p in (5, 50, 80, 95):
        assert spread.percentile(p) == pytest.approx(float(np.percentile(times, p, method="hazen")))
    assert spread.mean == pytest.approx(float(np.mean(times)))
    assert spread.sd == pytest.approx(float(np.std(times)))


def test_what_is_certain_has_no_spread() -> None:
    for spread in (certain(90.0), sample([90.0])):
        assert [spread.percentile(p) for p in (1, 50, 99)] == pytest.approx([90.0] * 3)
        assert spread.sd == 0
        assert spread.chance_over(89.0) == 1
        assert spread.chance_over(91.0) == 0
        assert spread.expected_over(80.0) == pytest.approx(10.0)
    assert certain(0.0).percentile(95) == 0
    assert certain(0.0).chance_over(0.0) == 0


@pytest.mark.parametrize("p", [0, 100, -5, 250])
def test_a_percentile_outside_0_to_100_is_refused(p: float) -> None:
    for spread in (certain(90.0), sample([90.0])):
        with pytest.raises(ValueError, match="between 0 and 100"):
            spread.percentile(p)


@given(factor=st.floats(min_value=0.5, max_value=4))
def test_times_a_factor_moves_every_percentile_by_it(factor: float) -> None:
    for spread in (mixture([(0.7, of_lognormal(60.0, 0.3)), (0.3, of_lognormal(90.0, 0.1))]), sample([3.0, 5.0, 9.0])):
        assert spread.times(factor).percentile(80) == pytest.approx(factor * spread.percentile(80), rel=1e-6)
        assert spread.times(factor).mean == pytest.approx(factor * spread.mean)
