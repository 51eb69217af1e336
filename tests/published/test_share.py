"""Shares from few visits against published cases; SciPy is the referee of the distribution."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats
from tests.history.made import visit

from splitpin.faults.share import Share, found_causes

JEFFREYS = Share(0.5, 0.5)


@pytest.fixture(scope="module")
def cases(reference: Path) -> dict[str, Any]:
    path = reference / "data" / "small_sample_probability.json"
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return found


def test_437_of_980(cases: dict[str, Any]) -> None:
    """A. Gelman and others, Bayesian Data Analysis, 3rd edition, section 2.4, as printed on a public page of notes."""
    case = cases["BB1_published"]
    share = Share().after(case["y"], case["n"])
    assert share == tuple(case["posterior"])
    assert (share.mean, share.at(0.025), share.at(0.975)) == pytest.approx(
        (case["mean"], case["q025"], case["q975"]), abs=1e-8
    )


def test_the_chance_of_more_than_nine_in_ten(cases: dict[str, Any]) -> None:
    """Essential Math for Data Science, examples 2-4 and 2-5; that book adds no visits of its own."""
    case = cases["BB2_published"]
    assert 1 - Share(8, 2).below(0.9) == pytest.approx(case["P_p_over_0.9_beta_8_2"], abs=1e-8)
    assert 1 - Share(30, 6).below(0.9) == pytest.approx(case["P_p_over_0.9_beta_30_6"], abs=1e-8)


def test_only_ever_this_cause(cases: dict[str, Any]) -> None:
    """A public notebook on Bayes' essay: chance of a share over one half after n of n."""
    case = cases["BB3_published"]
    for n, uniform, jeffreys in zip(
        case["all_ones_n"], case["uniform_P_over_half"], case["jeffreys_P_over_half"], strict=True
    ):
        assert 1 - Share().after(n, n).below(0.5) == pytest.approx(uniform, abs=6e-6)
        assert 1 - JEFFREYS.after(n, n).below(0.5) == pytest.approx(jeffreys, abs=6e-5)


def test_none_of_twelve(cases: dict[str, Any]) -> None:
    """Constructed; the bound of the uniform share has a closed form."""
    case = cases["BB4_zero_in_12"]
    assert Share().after(0, 12).mean == pytest.approx(case["mean"], abs=1e-8)
    assert Share().after(0, 12).at(0.95) == pytest.approx(1 - 0.05 ** (1 / 13), abs=1e-11)
    assert JEFFREYS.after(0, 12).at(0.95) == pytest.approx(case["jeffreys_upper95"], abs=1e-8)


def test_five_of_twenty_after_a_rare_start(cases: dict[str, Any]) -> None:
    """Constructed, computed with SciPy."""
    case = cases["BB5_fault_share"]
    share = Share(2, 18).after(5, 20)
    assert share == tuple(case["posterior"])
    assert [share.at(q) for q in (0.05, 0.5, 0.95)] == pytest.approx([case["q05"], case["median"], case["q95"]])


def test_the_bounds_of_one_of_four_causes(cases: dict[str, Any]) -> None:
    """Constructed: the marginal of a Dirichlet share is a Beta share."""
    case = cases["BB6_dirichlet"]
    total = sum(case["posterior"])
    for weight, bounds in zip(case["posterior"], case["q05_q95"], strict=True):
        share = Share(weight, total - weight)
        assert [share.at(0.05), share.at(0.95)] == pytest.approx(bounds, abs=6e-5)


@settings(deadline=None)
@given(st.floats(0.05, 2000), st.floats(0.05, 2000), st.floats(0, 1))
def test_chances_are_those_of_the_beta_distribution(found: float, other: float, share: float) -> None:
    assert Share(found, other).below(share) == pytest.approx(stats.beta(found, other).cdf(share), abs=1e-10)


def test_causes_are_counted_by_plant_and_symptom() -> None:
    """Counted by hand: a visit without a cause on record, or of another plant, says nothing of these."""
    fan, trap = ("fan", "replace"), ("trap", "clean")
    seen = [visit("A", symptoms=("noise",), found=(fan,)), visit("B", symptoms=("noise", "leak"), found=(trap, fan))]
    none = [visit("C", symptoms=("noise",), found=()), visit("D", assembly="other", symptoms=("noise",), found=(trap,))]
    rows = [(row.assembly, row.symptom, row.cause, row.found, row.visits) for row in found_causes([*seen, *none])]
    assert rows == [
        ("circulator-set", "leak", fan, 1, 1),
        ("circulator-set", "leak", trap, 1, 1),
        ("circulator-set", "noise", fan, 2, 2),
        ("circulator-set", "noise", trap, 1, 2),
        ("other", "noise", trap, 1, 1),
    ]
