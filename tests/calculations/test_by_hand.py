"""Small cases worked by hand; the published ones stand in tests/published/test_trade_readings.py."""

from fractions import Fraction

import pytest

from splitpin.calculations.answer import Answer, take
from splitpin.calculations.reading import Choice, Flag, Number, Result, words
from splitpin.calculations.register import READINGS
from splitpin.calculations.vessel import reserve
from splitpin.reading.library import read_library


def values(name: str, *pairs: str) -> tuple[Fraction | str, ...]:
    found = take(READINGS[name], pairs, {})
    assert isinstance(found, Answer), found
    return tuple(line.value for line in found.lines)


def test_a_cubic_foot_is_exact() -> None:
    (rate, _, _) = values("gas-rate-imperial", "volume_ft3=1", "seconds=3600")
    assert rate == Fraction("0.028316846592")


def test_the_correction_multiplies_the_heat_and_not_the_rate_as_read() -> None:
    plain = values("gas-rate-metric", "volume_m3=0.1", "seconds=100")
    corrected = values("gas-rate-metric", "volume_m3=0.1", "seconds=100", "corrected=yes")
    assert corrected == (plain[0], plain[1] * Fraction("1.02264"), plain[2] * Fraction("1.02264"))


def test_fittings_are_a_tenth_of_the_pipe_and_not_of_the_meter() -> None:
    # 10 m of 35 mm hold 0.0084 m³, with fittings 0.00924; nothing else
    assert values("installation-volume", "meter=none", "copper_35_m=10")[0] == Fraction("0.00924")
    assert values("installation-volume", "meter=u16")[0] == Fraction("0.025")
    assert values("installation-volume", "meter=u6", "other_m3=0.001")[0] == Fraction("0.009")


def test_the_reserve_changes_at_fifteen_litres_of_expansion() -> None:
    assert reserve(Fraction(500), Fraction("14.99"), "share") == Fraction("2.998")
    assert reserve(Fraction(500), Fraction(15), "share") == 3
    assert reserve(Fraction(1000), Fraction(15), "share") == 5
    assert reserve(Fraction(1000), Fraction(1), "3-litres") == 5


@pytest.mark.parametrize(
    ("valve", "run", "elbows", "d1", "d2"),
    [
        ("g1/2", "9", "0", 15, 22),  # the whole 9 m: just allowed
        ("g1/2", "9.01", "0", 15, 28),
        ("g1/2", "17", "1", 15, 28),
        ("g3/4", "9", "0", 22, 28),
        ("g3/4", "27", "0", 22, 42),
        ("g1", "9", "1", 28, 42),
        ("g1", "24.7", "1", 28, 54),
    ],
)
def test_the_least_discharge_pipe_that_will_do_is_taken(valve: str, run: str, elbows: str, d1: int, d2: int) -> None:
    assert values("discharge-pipe", f"valve={valve}", f"run_m={run}", f"elbows={elbows}")[:2] == (d1, d2)


@pytest.mark.parametrize(
    ("twist", "pace", "guideline"),
    [("up-to-45", "seldom", 20), ("over-90", "seldom", 16), ("up-to-45", "5-8", 10), ("over-90", "over-12", "3.2")],
)
def test_the_lifting_filter_multiplies_its_cuts(twist: str, pace: str, guideline: int | str) -> None:
    zone = "hands_from=knuckle-to-mid-lower-leg"
    found = values("lifting-filter", "figures=men", zone, f"twist={twist}", f"lifts_a_minute={pace}")
    assert found == (Fraction(guideline),)


def test_nobody_is_taken_for_a_man_or_a_woman() -> None:
    assert READINGS["lifting-filter"].inputs[0].default is None


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        ("0.00401", 5, "0.00401"),
        ("0.000005", 5, "0.00001"),
        ("0.0000049", 5, "0.00000"),
        ("2.5", 0, "3"),
        ("-0.4", 0, "0"),
        ("-2.45", 1, "-2.5"),
        ("1234.5", 2, "1234.50"),
    ],
)
def test_figures_are_rounded_half_away_from_nought(value: str, digits: int, text: str) -> None:
    assert words(Fraction(value), digits) == text


def test_names_are_plain_and_inputs_carry_their_units() -> None:
    for name, reading in READINGS.items():
        assert name == reading.name and name.replace("-", "").isalnum() and name == name.lower()
        assert reading.formula and reading.source and reading.inputs and reading.results
        for one in reading.inputs:
            assert one.title
            if isinstance(one, Number):
                assert one.unit and Fraction(one.low) < Fraction(one.high)
                assert one.default is None or Fraction(one.low) <= Fraction(one.default) <= Fraction(one.high)
            elif isinstance(one, Choice):
                assert one.default is None or one.default in one.options
            else:
                assert isinstance(one, Flag) and one.default in ("yes", "no")
        assert all(isinstance(result, Result) and result.title for result in reading.results)


def test_every_limit_stands_in_the_files_in_the_unit_of_the_result() -> None:
    limits = read_library(assemblies=())[0].limits
    units = {(row.id, row.unit) for file in limits.values() for row in file.limit}
    known = {name for name, _ in units}
    compared = [result for reading in READINGS.values() for result in reading.results if result.limit]
    assert compared
    assert {(result.limit, result.unit) for result in compared} <= units
    assert {reading.decides for reading in READINGS.values() if reading.decides} <= known


def test_the_rule_of_one_bar_still_holds_at_ten_metres() -> None:
    assert values("vessel-precharge", "static_m=10", "rule=one-bar") == (1, Fraction("1.3"))
