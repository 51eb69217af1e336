"""The case that docs/times.md works by hand."""

import math

import pytest

from splitpin.timing.elapsed import hands_of
from splitpin.timing.elements import Element
from splitpin.timing.moments import Moments, of_lognormal, total
from splitpin.timing.pace import Pace
from splitpin.timing.spread import mixture, three_moments, two_moments

COVER = (
    Element(1, "move", "front", 8, 0.5, "move"),
    Element(1, "tool", "key", 5, 0.5, "tool"),
    Element(1, "off", "cover-screws", 44, 0.35, "off"),
    Element(2, "handling", "cover", 8, 0.4, "handling"),
)
PACE = Pace(-0.02, 0.2)


def test_the_elements() -> None:
    work = hands_of(COVER)
    assert work.mean == 65
    assert [round(hands_of([element]).variance, 1) for element in COVER] == [18.2, 7.1, 252.3, 11.1]
    assert work.sd == pytest.approx(17.0, abs=0.05)


def test_allowance_and_pace() -> None:
    time = hands_of(COVER).scaled(1.15).times(PACE.moments)
    assert time.mean == pytest.approx(74.75)
    assert time.sd == pytest.approx(25.0, abs=0.05)
    law = two_moments(time.mean, time.sd)
    assert (round(law.mu, 3), round(law.sigma, 3)) == (4.261, 0.326)
    assert three_moments(time).at(0.8416) == pytest.approx(law.at(0.8416), rel=0.005)


def test_a_seized_screw() -> None:
    chance = 1 - 0.997**4
    assert chance == pytest.approx(0.0119, abs=5e-5)
    cost = of_lognormal(740, 0.341)
    factor = PACE.moments.scaled(1.15)
    cases = [
        (1 - chance, hands_of(COVER).times(factor)),
        (chance, total((hands_of(COVER), cost)).times(factor)),
    ]
    spread = mixture(cases)
    assert cases[1][1].mean == pytest.approx(925.75)
    assert spread.mean == pytest.approx(84.9, abs=0.05)
    assert spread.percentile(80) == pytest.approx(94.2, abs=0.5)
    assert spread.percentile(99) > 200  # only the seized screw reaches this far
    assert math.exp(4.261 + 0.877 * 0.326) == pytest.approx(94.3, abs=0.1)
    assert spread.moments == pytest.approx(total_of_both(cases))


def total_of_both(cases: list[tuple[float, Moments]]) -> tuple[float, float, float]:
    """Moments about 0 weighted, then taken about the mean."""
    first, second, third = (sum(chance * time.raw[k] for chance, time in cases) for k in range(3))
    return first, second - first**2, third - 3 * first * second + 2 * first**3
