"""Demand for parts and what comes next, against computed cases; SciPy is the referee of the distributions."""

import json
from itertools import islice
from pathlib import Path
from typing import Any

import pytest
from scipy import stats
from tests.history.made import visit

from splitpin.faults.share import Share
from splitpin.records.actual import ActualPart
from splitpin.supply.demand import Demand, part_uses


@pytest.fixture(scope="module")
def cases(reference: Path) -> dict[str, Any]:
    path = reference / "data" / "small_sample_probability.json"
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return found


def test_three_units_in_six_weeks(cases: dict[str, Any]) -> None:
    """Constructed, computed with SciPy: gamma(2, 4), then 3 units in 6 weeks."""
    case = cases["BB7_gamma_poisson_part_demand"]
    demand = Demand(2, 4).after(3, 6)
    assert demand == tuple(case["posterior"])
    assert [*islice(demand.over(1).chances(), 4)] == pytest.approx(case["next_week_pmf"], abs=1e-6)
    assert demand.over(1).stock(0.95) == case["stock_for_95_percent"]


@pytest.mark.parametrize(("shape", "rate", "visits"), [(0.5, 3, 1), (5, 10, 4), (40.5, 12, 10)])
def test_the_next_visits_follow_a_negative_binomial(shape: float, rate: float, visits: float) -> None:
    referee = stats.nbinom(shape, rate / (rate + visits))
    assert list(islice(Demand(shape, rate).over(visits).chances(), 30)) == pytest.approx(list(referee.pmf(range(30))))
    assert Demand(shape, rate).over(visits).stock(0.9) == referee.ppf(0.9)


def test_a_cause_in_the_next_ten_visits(cases: dict[str, Any]) -> None:
    """Constructed, computed with SciPy: Beta(2, 18), then 5 of 20; the plug-in says too much."""
    case = cases["BB5_fault_share"]
    share = Share(2, 18).after(5, 20)
    assert [share.next(n, 10) for n in range(4)] == pytest.approx(case["next_10_pmf"], abs=1e-6)
    assert 1 - share.next(0, 10) == pytest.approx(case["P_at_least_one_in_10"], abs=1e-8)
    assert 1 - (1 - share.mean) ** 10 == pytest.approx(case["plug_in_P"], abs=1e-8)


def test_parts_are_counted_over_the_visits_that_name_any() -> None:
    two = (ActualPart(part="washer", quantity=2), ActualPart(part="head", quantity=1))
    rows = part_uses([visit("A", parts=two), visit("B", parts=two[:1]), visit("C", parts=())])
    assert [(row.part, row.units, row.visits) for row in rows] == [("washer", 4, 2), ("head", 1, 2)]
    assert rows[0].demand == Demand(4.5, 2)
