"""Nine units with Poisson demand in resupply: a public course report, KTH SF2863, December 2024, tables 1-2.

The report prints costs, the choices of marginal allocation and four optima of a dynamic programme to 15 digits. It does
not print the means; those of the reference data were recovered from its figures, and only one set fits.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from splitpin.supply.need import Need
from splitpin.supply.spares import Spare, best_spares, frontier


@pytest.fixture(scope="module")
def report(reference: Path) -> dict[str, Any]:
    path = reference / "data" / "metric_nine_items.json"
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return found


@pytest.fixture(scope="module")
def units(report: dict[str, Any]) -> list[Spare]:
    return [Spare(cost, Need(mean).missing(1e-9)) for mean, cost in zip(report["m"], report["cost"], strict=True)]


def test_the_frontier_is_the_published_one(report: dict[str, Any], units: list[Spare]) -> None:
    published = report["marginal_allocation_budget_500"]
    assert len(published) == 15
    counts = [0] * 9
    bought = frontier(units)
    for point in published:
        assert counts == point["s"]
        assert sum(unit.cost * n for unit, n in zip(units, counts, strict=True)) == point["cost"]
        missing = sum(unit.missing[n] for unit, n in zip(units, counts, strict=True))
        assert missing == pytest.approx(point["EBO"], abs=5.1e-5)  # four digits are printed
        counts[next(bought)[0]] += 1
    assert sum(unit.cost * n for unit, n in zip(units, counts, strict=True)) > 500


@pytest.mark.parametrize("money", [0, 100, 150, 350, 500])
def test_the_best_for_a_sum_is_the_published_optimum(money: int, report: dict[str, Any], units: list[Spare]) -> None:
    (optimum,) = (row for row in report["dynamic_programming_optima"] if row["budget"] == money)
    kept = best_spares(units, money)
    assert (list(kept.counts), kept.cost) == (optimum["s"], optimum["cost"])
    assert kept.missing == pytest.approx(optimum["EBO"], abs=1e-12 if money else 5.1e-5)
    assert kept.proved


def test_the_best_for_a_sum_beats_the_frontier_below_it(units: list[Spare]) -> None:
    assert best_spares(units, 500).missing < 1.2319 < 1.4200  # the frontier's last choice within 500 costs 463


def test_two_of_each_and_one_unit_alone(report: dict[str, Any], units: list[Spare]) -> None:
    assert sum(2 * unit.cost for unit in units) == report["all_two_each"]["cost"]
    assert sum(unit.missing[2] for unit in units) == pytest.approx(report["all_two_each"]["EBO_computed"], abs=1e-10)
    alone = report["single_item_LRU1_budget_50"]
    kept = best_spares(units[:1], 50)
    assert (kept.counts, kept.cost) == ((alone["s"],), alone["cost"])
    assert kept.missing == pytest.approx(alone["EBO"], abs=5.1e-5)
