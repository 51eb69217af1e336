"""The risk of a fixed price, against numbers that come another way."""

import math
from statistics import NormalDist

import pytest
from tests.pricing.job import ESTIMATE, HOUR_AND_A_HALF, charges, plan, quoted, visit

from splitpin.planning import Planned
from splitpin.pricing import quote
from splitpin.timing import Spread
from splitpin.timing.moments import Moments
from splitpin.timing.spread import mixture


def by_integral(time: Spread, sold_s: float) -> float:
    """The mean beyond `sold_s`, as the area under the chance of being later, from `sold_s` on."""
    steps, top = 20_000, time.percentile(99.99999)
    width = (top - sold_s) / steps
    return width * sum(time.chance_over(sold_s + (n + 0.5) * width) for n in range(steps))


def test_the_risk_of_the_quote_is_that_of_the_time_charged() -> None:
    found = quoted(plan(), charges())
    late = 1 - NormalDist().cdf(math.log(7200 / 5400) / 0.2)  # 7.5 %: 120 min are charged
    over = by_integral(HOUR_AND_A_HALF, 7200)
    assert found.risk.chance_percent == round(late * 100) == 8
    assert found.risk.over_s == pytest.approx(over, abs=0.5)
    assert found.risk.over_when_late_s == pytest.approx(over / late, abs=1)
    assert float(found.risk.cost) == pytest.approx(over * 2 * 40 / 3600, abs=0.02)


def test_the_spread_of_an_estimate_gives_the_same_risk_as_its_area() -> None:
    time = mixture([(0.9, Moments(5000, 900**2, 4e8)), (0.1, Moments(7000, 1500**2, 3e9))])
    estimate = type(ESTIMATE)(time, time)  # type: ignore[arg-type]
    found = quote(Planned(visit(), plan(), None), charges(), {}, estimate)
    sold_s = found.time.charged_min * 60
    assert found.time.worked_s == round(time.percentile(80))
    assert found.risk.chance_percent == round(time.chance_over(sold_s) * 100)
    assert found.risk.over_s == pytest.approx(by_integral(time, sold_s), abs=1)


def test_a_price_for_more_confidence_risks_less() -> None:
    at_50, at_95 = quoted(plan(), charges(), at=50), quoted(plan(), charges(), at=95)
    assert at_50.total < at_95.total
    assert at_50.risk.chance_percent > at_95.risk.chance_percent
    assert at_50.risk.cost > at_95.risk.cost
