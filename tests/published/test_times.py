"""Printed worked examples of times and repair times, computed again.

They stand in times.md, section 6, beside this checkout, whose ids (T1, T4, ...) the tests carry; large tables are read
there. "Published" figures were printed by the source, "computed" ones are arithmetic done by hand on its inputs.
"""

import csv
import json
import math
from pathlib import Path
from statistics import NormalDist
from typing import Any

import pytest

from splitpin.timing.allowance import Allowance
from splitpin.timing.elapsed import hands_of
from splitpin.timing.elements import Element, three_point
from splitpin.timing.moments import Moments, of_lognormal, total
from splitpin.timing.practice import total_by_units, unit_time
from splitpin.timing.repair_times import RepairTimes, fitted, weighted_mean
from splitpin.timing.spread import two_moments


@pytest.fixture(scope="module")
def checks(reference: Path) -> dict[str, Any]:
    rows = json.loads((reference / "data" / "times_checks.json").read_text(encoding="utf-8"))
    return {row["id"]: row for row in rows}


def table(reference: Path, name: str) -> list[dict[str, str]]:
    lines = (reference / "data" / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def test_t1_forty_six_active_repair_times(reference: Path, checks: dict[str, Any]) -> None:
    """MIL-HDBK-338B, 5.6.2.1.1; published: 46 times, 29 values, mean of ln 0.65879, deviation 1.11435."""
    times = [float(row["hours_reconstructed_handbook"]) for row in table(reference, "repair_times_46.csv")]
    assert (len(times), len(set(times))) == (46, 29)
    found = fitted(times)
    assert round(found.mean_log, 5) == 0.65879
    assert round(found.sd_log, 5) == 1.11435
    computed = checks["T1"]["computed"]
    assert found.mean == pytest.approx(computed["mean_h"], abs=5e-5)
    assert found.median == pytest.approx(computed["median_h"], abs=5e-5)
    assert found.within(90) == pytest.approx(computed["p90_h_z1.282"], rel=1e-3)  # z there has three places
    assert found.within(95) == pytest.approx(computed["p95_h_z1.645"], rel=1e-3)
    assert found.within(100 * computed["M_at_20_h"]) == pytest.approx(20, rel=1e-3)


def test_t2_the_open_data_set(reference: Path, checks: dict[str, Any]) -> None:
    """The same times as an open data set has them, computed."""
    found = fitted([float(row["hours_as_in_open_dataset"]) for row in table(reference, "repair_times_46.csv")])
    assert found.mean_log == pytest.approx(checks["T2"]["outputs"]["mean_ln"], abs=5e-7)
    assert found.sd_log == pytest.approx(checks["T2"]["outputs"]["sd_ln_n_minus_1"], abs=5e-7)


@pytest.mark.parametrize(("phi", "z"), [(80, 0.8416), (85, 1.036), (90, 1.282), (95, 1.645), (99, 2.326)])
def test_t3_time_within_which_a_share_is_done(phi: float, z: float) -> None:
    """MIL-HDBK-338, table 5.3.2.1-1, published."""
    assert math.log(RepairTimes(0.0, 1.0).within(phi)) == pytest.approx(z, abs=6e-4)


def worksheet(rows: list[dict[str, str]]) -> list[list[Element]]:
    """Each row as elements: the tool once, then so many pieces off and set aside."""
    return [
        [
            Element(n, "tool", row["tool_code"], float(row["tool_s"]), 0.0, f"tool:{n}"),
            Element(n, "off", row["task"], int(row["repeats"]) * float(row["removal_s"]), 0.0, f"off:{n}"),
            Element(n, "handling", row["task"], int(row["repeats"]) * float(row["setaside_s"]), 0.0, f"handling:{n}"),
        ]
        for n, row in enumerate(rows, 1)
    ]


def test_t4_a_service_worksheet_in_seconds_and_cents(reference: Path) -> None:
    """Design for Six Sigma: A Roadmap for Product Development, table 10.5; published: rows, 104.3 s, 86.92 cents."""
    rows = worksheet(table(reference, "dfs_pressure_recorder_disassembly.csv"))
    seconds = [hands_of(row).mean for row in rows]
    assert seconds == pytest.approx([42.3, 4.5, 12.2, 3.8, 3.8, 4.5, 6.4, 23.0, 3.8])
    whole = hands_of(element for row in rows for element in row).mean
    assert whole == pytest.approx(104.3)
    assert whole / 3600 * 30 * 100 == pytest.approx(86.92, abs=5e-3)


def test_t5_service_time_and_its_efficiency(reference: Path) -> None:
    """The same source, pages 375-376; published: 104.3 + 130.9 = 235.2 s, 9 s ideal for one operation, 3.8 %."""
    rows = worksheet(table(reference, "dfs_pressure_recorder_disassembly.csv"))
    refit = Element(10, "on", "all of it", 130.9, 0.0, "on:10")
    whole = hands_of([*(element for row in rows for element in row), refit]).mean
    assert whole == pytest.approx(235.2)
    assert round(100 * 9 * 1 / whole, 1) == 3.8


def test_t12_allowance_on_work_time() -> None:
    """Lecture notes on time study, published: 28.8 s at 15 % is 33.12 s."""
    assert 28.8 * Allowance(0.15, "work-time").factor == pytest.approx(33.12)


def test_t13_allowance_on_work_time_and_on_shift_time() -> None:
    """Lecture notes on time study, published: 2.00 min at 15 % is 2.30 min of work time, 2.353 min of shift time."""
    assert 2.00 * Allowance(0.15, "work-time").factor == pytest.approx(2.30)
    assert 2.00 * Allowance(0.15, "shift-time").factor == pytest.approx(2.353, abs=5e-4)


def test_t14_four_elements_rated_and_allowed(checks: dict[str, Any]) -> None:
    """A time study of four elements by six readings, published: 0.48, 1.47, 1.05, 1.33, together 4.33 min."""
    case = checks["T14"]
    factor = Allowance(case["inputs"]["allowance"], "work-time").factor
    found = []
    for readings, rating in zip(case["inputs"]["obs"], case["inputs"]["ratings"], strict=True):
        observed = sum(readings) / len(readings)
        found.append(of_lognormal(observed, 0.0).scaled(rating).scaled(factor).mean)
    assert [round(time, 2) for time in found] == case["outputs"]["standard"] == [0.48, 1.47, 1.05, 1.33]
    assert round(sum(round(time, 2) for time in found), 2) == 4.33


def test_t17_the_two_learning_curves() -> None:
    """Lecture notes on learning curves, published: first unit 1000 h, 80 %, 20 units."""
    averages = [n * unit_time(1000, 0.8, n) for n in (10, 19, 20)]  # Wright: the same curve is the average of n units
    assert round(averages[2]) == 7624
    assert round(averages[2] - averages[1], 1) == 260.6
    assert round(averages[2] - averages[0]) == 2859
    assert round(total_by_units(1000, 0.8, 20)) == 10485
    assert round(unit_time(1000, 0.8, 20), 1) == 381.2
    assert round(unit_time(1000, 0.8, 10), 1) == 476.5


def test_t18_fifty_forty_thirty_two() -> None:
    """Learning by the unit model, published: 50 min, then 40 for the second and 32 for the fourth."""
    assert [unit_time(50, 0.8, n) for n in (1, 2, 4)] == pytest.approx([50, 40, 32])


def test_t19_three_point_estimates_along_a_path(reference: Path) -> None:
    """A ten-activity network, published: expected times, variances, path C-F-H-J of 17; its deviation is computed."""
    rows = {row["activity"]: row for row in table(reference, "pert_ten_activities.csv")}
    spread = {
        name: three_point(float(row["optimistic"]), float(row["most_likely"]), float(row["pessimistic"]))
        for name, row in rows.items()
    }
    for name, row in rows.items():
        assert spread[name][0] == pytest.approx(float(row["expected"]))
        assert spread[name][1] ** 2 == pytest.approx(float(row["variance_printed"]), abs=5.1e-3)

    def longest(name: str) -> tuple[float, tuple[str, ...]]:
        before = [earlier for earlier in rows[name]["predecessors"].split(";") if earlier]
        length, path = max((longest(earlier) for earlier in before), default=(0.0, ()))
        return length + spread[name][0], (*path, name)

    length, path = max(longest(name) for name in rows)
    assert (round(length, 9), path) == (17, ("C", "F", "H", "J"))
    whole = total(Moments(spread[name][0], spread[name][1] ** 2) for name in path)
    assert whole.mean == pytest.approx(17)
    assert whole.sd == pytest.approx(2.1858, abs=5e-5)


def test_t20_the_chance_of_a_path_in_time() -> None:
    """A worked probability, published: means 7, 14, 11, 4, variances 4, 16, 4, 1; by 41 with 0.8413."""
    whole = total(Moments(mean, variance) for mean, variance in ((7, 4), (14, 16), (11, 4), (4, 1)))
    assert (whole.mean, whole.sd) == (36, 5)
    assert round(NormalDist(whole.mean, whole.sd).cdf(41), 4) == 0.8413


TWO = ((math.log(110), 0.25), (math.log(100), 0.15))  # log-normals by mean and deviation of the logarithm


def matched() -> tuple[float, float]:
    """Our sum of the two by two moments."""
    moments = total(of_lognormal(math.exp(mu + sigma**2 / 2), sigma) for mu, sigma in TWO)
    law = two_moments(moments.mean, moments.sd)
    return law.mu, law.sigma


def test_t21_the_published_approximation_of_a_sum_and_ours_agree() -> None:
    """Lo 2013, in the vignette of an open R package, published: mu 5.3576474, sigma 0.1499077."""
    means = [math.exp(mu + sigma**2 / 2) for mu, sigma in TWO]
    whole = sum(means)
    square = sum((sigma * mean) ** 2 for (_, sigma), mean in zip(TWO, means, strict=True)) / whole**2
    assert math.sqrt(square) == pytest.approx(0.1499077, abs=5e-8)
    assert math.log(whole) - square / 2 == pytest.approx(5.3576474, abs=5e-8)
    mu, sigma = matched()
    assert mu == pytest.approx(5.3576474, abs=5e-4)
    assert sigma == pytest.approx(0.1499077, rel=0.01)


def test_t22_the_sum_by_matched_moments() -> None:
    """The same sum by Fenton's method (formula from memory), computed."""
    assert matched() == pytest.approx((5.3574715, 0.1510767), abs=5e-8)


def test_t23_mean_repair_time_weighted_by_failure_rates() -> None:
    """A public text on maintainability, published: 5000 / 350; computed: 14.286 min."""
    rates, minutes = (100, 50, 200), (15, 30, 10)
    assert sum(rate * time for rate, time in zip(rates, minutes, strict=True)) == 5000
    assert weighted_mean(rates, minutes) == pytest.approx(5000 / 350)
    assert weighted_mean(rates, minutes) == pytest.approx(14.286, abs=5e-4)
