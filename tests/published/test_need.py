"""Pieces needed until the refill, against stock cases worked elsewhere; SciPy is the referee of the distributions."""

import csv
from itertools import islice
from pathlib import Path

import pytest
from scipy import stats

from splitpin.supply.need import Need


def test_stock_where_too_many_and_too_few_both_cost(reference: Path) -> None:
    """Newsvendor with Poisson demand: five cases, computed with SciPy; the rule is in every textbook of stock."""
    with (reference / "data" / "newsvendor_poisson.csv").open(encoding="utf-8", newline="") as file:
        rows = [{name: float(cell) for name, cell in row.items()} for row in csv.DictReader(file)]
    assert len(rows) == 5
    for row in rows:
        need = Need(row["mean"])
        under, over = row["underage_cost"], row["overage_cost"]
        kept = need.stock(under / (under + over))
        assert kept == row["S_star"]
        before, at = islice(need.short(), kept - 1, kept + 1)
        assert (1 - before, 1 - at) == pytest.approx((row["cdf_S_minus_1"], row["cdf_S"]), abs=1e-6)
        missing = need.missing(1e-9)[kept]
        left = kept - need.mean + missing
        assert (left, missing) == pytest.approx((row["E_leftover"], row["E_short"]), abs=1e-6)
        assert under * missing + over * left == pytest.approx(row["E_cost"], abs=1e-4)
        assert 1 - missing / need.mean == pytest.approx(row["unit_fill_rate"], abs=1e-6)


def test_stock_refilled_one_for_one() -> None:
    """Inputs of a textbook exercise (Poisson 1.5 a day, 3 days to refill, so 4 days of demand), figures computed."""
    need = Need(6.0)
    assert next(islice(need.short(), 8, None)) == pytest.approx(0.152763, abs=1e-6)
    assert need.missing(1e-9)[8] == pytest.approx(0.314021, abs=1e-6)
    kept = need.stock(6 / 6.01)
    assert kept == 14
    assert [1 - short for short in islice(need.short(), 13, 15)] == pytest.approx([0.996372, 0.998600], abs=1e-6)


@pytest.mark.parametrize(("hours_between_failures", "spares"), [(100_000, 3), (200_000, 2), (300_000, 1)])
def test_spares_for_forty_five_units_running_ninety_days(hours_between_failures: float, spares: int) -> None:
    """A page on spares prints 3, 2, 2 for 95 %: it takes the normal law for the last. The exact law says 1."""
    assert Need(45 * 90 * 24 / hours_between_failures).stock(0.95) == spares


@pytest.mark.parametrize("mean", [0.03, 1.8, 40.0, 5_000.0])
def test_a_rate_known_for_certain_gives_poisson(mean: float) -> None:
    referee = stats.poisson(mean)
    assert list(islice(Need(mean).chances(), 60)) == pytest.approx(list(referee.pmf(range(60))), abs=1e-14)
    assert Need(mean).stock(0.95) == referee.ppf(0.95)
    assert list(islice(Need(mean).short(), 60)) == pytest.approx(list(referee.sf(range(60))), abs=1e-13)


@pytest.mark.parametrize(("mean", "doubt"), [(0.4, 0.1), (3.0, 5.0), (10_000.0, 10.0)])
def test_an_uncertain_rate_gives_a_negative_binomial(mean: float, doubt: float) -> None:
    referee = stats.nbinom(mean / doubt, 1 / (1 + doubt))
    assert Need(mean, doubt).stock(0.9) == referee.ppf(0.9)
    missing = Need(mean, doubt).missing(0.01)
    assert len(missing) == referee.isf(0.01) + 1  # as many pieces as are used with at least this chance
    for kept in (0, 1, len(missing) - 1):
        left = sum((kept - n) * referee.pmf(n) for n in range(kept))
        assert missing[kept] == pytest.approx(mean - kept + left, rel=1e-6, abs=1e-9)
