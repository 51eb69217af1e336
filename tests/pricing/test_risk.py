"""The risk of a fixed price, against numbers that come another way."""

import math
from statistics import NormalDist

import pytest
from tests.pricing.job import HOUR_AND_A_HALF, LogNormal, charges, plan, quoted

from splitpin.pricing.risk import expected_over


def by_integral(time: LogNormal, sold_s: float) -> float:
    """The mean beyond `sold_s`, as the area under the chance of being later, from `sold_s` on."""
    steps, top = 20_000, time.percentile(99.99999)
    width = (top - sold_s) / steps
    return width * sum(time.chance_over(sold_s + (n + 0.5) * width) for n in range(steps))


@pytest.mark.parametrize("sold_s", [1800, 5400, 6390, 7200, 10800])
@pytest.mark.parametrize("log_sd", [0.1, 0.35])
def test_mean_overrun_is_the_area_under_the_chance_of_being_later(sold_s: float, log_sd: float) -> None:
    time = LogNormal(median=5400, log_sd=log_sd)
    assert expected_over(time, sold_s) == pytest.approx(by_integral(time, sold_s), rel=1e-4, abs=1e-3)


def test_mean_overrun_is_the_mean_where_nothing_is_sold_and_nothing_where_the_time_is_certain() -> None:
    assert expected_over(HOUR_AND_A_HALF, 0) == pytest.approx(HOUR_AND_A_HALF.mean)
    certain = LogNormal(median=5400, log_sd=0)
    assert [expected_over(certain, sold) for sold in (5000, 5400, 6000)] == [400, 0, 0]


def test_the_risk_of_the_quote_is_that_of_the_time_charged() -> None:
    found = quoted(plan(), charges())
    late = 1 - NormalDist().cdf(math.log(7200 / 5400) / 0.2)  # 7.5 %: 120 min are charged
    over = by_integral(HOUR_AND_A_HALF, 7200)
    assert found.risk.chance_percent == round(late * 100) == 8
    assert found.risk.over_s == pytest.approx(over, abs=0.5)
    assert found.risk.over_when_late_s == pytest.approx(over / late, abs=1)
    assert float(found.risk.cost) == pytest.approx(over * 2 * 40 / 3600, abs=0.02)


def test_a_price_for_more_confidence_risks_less() -> None:
    at_50, at_95 = quoted(plan(), charges(), at=50), quoted(plan(), charges(), at=95)
    assert at_50.total < at_95.total
    assert at_50.risk.chance_percent > at_95.risk.chance_percent
    assert at_50.risk.cost > at_95.risk.cost
