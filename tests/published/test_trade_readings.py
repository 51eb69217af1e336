"""Printed and derived worked examples of the trade, computed again.

They stand in trade.md, section 8, beside this checkout; the marks S.. are those of its list of sources. *Seen*: inputs
and output stood on a page. *Derived*: the inputs are a page's or chosen, the output is arithmetic done by hand there.
The examples are tests/cases/trade-readings.toml. Each quotes its line; one test reads the file and finds every quote.
"""

import tomllib
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from splitpin.calculations.answer import Answer, take
from splitpin.calculations.given import Problem
from splitpin.calculations.register import READINGS
from splitpin.calculations.vessel import FACTORS
from splitpin.reading.library import read_library
from splitpin.records.procedure import LimitsFile


@dataclass(frozen=True)
class Example:
    """`expect`: printed figures by result; a figure is met when ours rounds to it. `verdicts`: passes by result."""

    source: str
    quote: str
    name: str
    given: str
    expect: dict[str, str]
    verdicts: dict[str, bool] | None = None


_CASES = Path(__file__).resolve().parents[1] / "cases" / "trade-readings.toml"
EXAMPLES = tuple(Example(**row) for row in tomllib.loads(_CASES.read_text(encoding="utf-8"))["example"])


@pytest.fixture(scope="module")
def limits() -> dict[str, LimitsFile]:
    return read_library(assemblies=())[0].limits


def taken(name: str, given: str, limits: dict[str, LimitsFile]) -> Answer:
    found = take(READINGS[name], given.split(), limits)
    assert isinstance(found, Answer), found
    return found


def rounds_to(value: object, printed: str) -> bool:
    """Whether an exact value lies within half a unit of the last printed digit; words must be equal."""
    if not isinstance(value, Fraction):
        return value == printed
    exponent = Decimal(printed).as_tuple().exponent
    assert isinstance(exponent, int)
    return abs(value - Fraction(printed)) <= Fraction(10) ** exponent / 2


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda one: f"{one.source.split(',')[0]} {one.name} {one.given}")
def test_the_example_comes_out_as_printed(example: Example, limits: dict[str, LimitsFile]) -> None:
    found = taken(example.name, example.given, limits)
    lines = {line.result.name: line for line in found.lines}
    assert set(example.expect) <= set(lines)
    for name, printed in example.expect.items():
        assert rounds_to(lines[name].value, printed), (name, lines[name].text, printed)
    for name, passes in (example.verdicts or {}).items():
        verdict = lines[name].verdict
        assert verdict is not None and verdict.passes is passes


def test_every_example_is_quoted_from_the_trade_notes(reference: Path) -> None:
    text = (reference / "trade.md").read_text(encoding="utf-8").partition("## 8. ")[2]
    assert [example.quote for example in EXAMPLES if example.quote not in text] == []


def test_every_reading_has_a_worked_example() -> None:
    # the examples of the lifting equation are its manual's: tests/readings/test_lifting.py
    assert {example.name for example in EXAMPLES} == set(READINGS) - {"lifting-index"}


def test_the_ratio_passes_at_its_limit_and_not_a_hair_above(limits: dict[str, LimitsFile]) -> None:
    # 8.6, derived edges: 0.0040 passes, 0.00401 does not; nor does what only rounds to 0.0040
    for co, passes in (("350", True), ("350.875", False), ("350.0000000001", False)):
        (ratio, _) = taken("co-co2-ratio", f"co_ppm={co} co2_percent=8.75", limits).lines
        assert ratio.verdict is not None and ratio.verdict.passes is passes


def test_a_higher_divisor_gives_less_net(limits: dict[str, LimitsFile]) -> None:
    # trade.md section 7, pitfall 3: 21.9 or 21.7 kW from 24.09
    nets = [
        taken("gas-rate-metric", f"volume_m3=0.01 seconds=16.4 net_divisor={divisor}", limits).lines[2].value
        for divisor in ("1.10", "1.11")
    ]
    assert [rounds_to(net, printed) for net, printed in zip(nets, ("21.9", "21.7"), strict=True)] == [True, True]


def test_the_table_of_factors_is_regular() -> None:
    # 8.8f, derived regularity: factor × (1 − (p0 + 1)/(psv − 0.35 + 1)) = 0.049 ± 0.001 in seven of eight columns,
    # and 0.051 in the column 2.0/1.0
    products = {
        (relief, initial): factor * (1 - (Fraction(initial) + 1) / (Fraction(relief) + Fraction("0.65")))
        for (relief, initial), factor in FACTORS.items()
    }
    near = {key for key, product in products.items() if abs(product - Fraction("0.049")) <= Fraction("0.001")}
    assert set(products) - near == {("2.0", "1.0")}
    assert rounds_to(products["2.0", "1.0"], "0.051")


def test_the_table_asks_for_less_where_the_flow_is_cooler(limits: dict[str, LimitsFile]) -> None:
    # 8.8f, seen, S17b: × 0.8 if the flow is below 88 °C
    (line,) = taken("vessel-table", "system_l=100 relief_bar=3.0 initial_bar=1.0 below_88=yes", limits).lines
    assert line.value == Fraction("8.72")


def test_above_the_ceiling_the_small_procedure_ends(limits: dict[str, LimitsFile]) -> None:
    # 3.2, seen, S14a: ceiling of the small-installation procedure 0.035 m³
    at = take(READINGS["installation-volume"], ["meter=none", "other_m3=0.035"], limits)
    above = take(READINGS["installation-volume"], ["meter=none", "other_m3=0.035", "copper_15_m=0.01"], limits)
    assert isinstance(at, Answer)
    assert isinstance(above, tuple) and isinstance(above[0], Problem)
    assert above[0].message == (
        "the installation volume of 0.035002 m³ is above 0.035 m³, where the small procedure ends"
    )


@pytest.mark.parametrize(
    ("tonnes", "hermetic", "interval"),
    [
        # 3.6, seen, S33b: 5 to < 50 t 12-monthly, 50 to < 500 t 6-monthly; none below 10 t when hermetically sealed
        ("4.999", "no", "none set below 5 t"),
        ("5", "no", "12 months"),
        ("9.999", "yes", "none set below 10 t for a hermetically sealed system"),
        ("10", "yes", "12 months"),
        ("49.999", "no", "12 months"),
        ("50", "no", "6 months"),
        ("499.999", "no", "6 months"),
        ("500", "no", "not set: read the regulation; automatic leak detection is fitted"),
    ],
)
def test_leak_checks_change_at_the_thresholds(
    tonnes: str, hermetic: str, interval: str, limits: dict[str, LimitsFile]
) -> None:
    found = taken("co2-equivalent", f"charge_kg={tonnes} gwp=1000 hermetic={hermetic}", limits)
    assert found.lines[1].value == interval
