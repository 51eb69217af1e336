"""Published and computed cases of chargeable time, tax and rounding, worked again.

They stand in supply.md, section 5 and "Money", and in its data files beside this checkout; the `status` column of each
says which were seen and which computed there. A few are typed in below as facts, so that they are checked everywhere.
"""

import csv
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from splitpin.pricing.chargeable import blocks, chargeable
from splitpin.pricing.selling import margin_of, markup_of, selling
from splitpin.pricing.tax import line_taxes, whole_tax
from splitpin.records.charges import Goods, Labour, Tax
from splitpin.records.prices import Price
from splitpin.units.currencies import CURRENCIES
from splitpin.units.money import Rounding, rounded

PENNY = Decimal("0.01")


def rows(reference: Path, name: str) -> list[dict[str, str]]:
    with (reference / "data" / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def labour(**keys: Any) -> Labour:
    return Labour.model_validate({"hour": "32.00", "direction": "actual", **keys})


def price(worked_min: int, rule: Labour, *, return_visit: bool = False) -> Decimal:
    charged = chargeable(worked_min, rule, return_visit=return_visit)
    return sum((block.price for block in blocks(charged, rule, return_visit=return_visit)), Decimal(0))


HALF_HOURS_UP = labour(minimum_min=60, step_min=30, direction="up")
QUARTERS_UP = labour(minimum_min=60, step_min=15, direction="up")
NEAREST_QUARTER = labour(minimum_min=60, step_min=15, direction="nearest")
# 50.00 for the first hour, then 15.00 for each half hour
TRADER_D = labour(minimum_min=60, step_min=30, direction="up", first_hour="50.00", first_min=60, hour="30.00")
# 40.00 for the first hour, then 32.00 an hour to the nearest quarter; no minimum on a return visit for the same job
TRADER_C = labour(
    minimum_min=60,
    step_min=15,
    direction="nearest",
    first_hour="40.00",
    first_min=60,
    hour="32.00",
    return_visit="minimum-waived",
)
# 105.00 for the first hour, then actual time at 85.00 an hour; no minimum on a continuation
TRADER_F = labour(minimum_min=60, first_hour="105.00", first_min=60, hour="85.00", return_visit="minimum-waived")
# 85.00 for the first hour, then 42.75 for each half hour; the direction is not stated there
TRADER_E = labour(minimum_min=60, step_min=30, direction="up", first_hour="85.00", first_min=60, hour="85.50")


# -- chargeable time


def test_every_row_of_the_chargeable_time_cases(reference: Path) -> None:
    cases = rows(reference, "chargeable_time_cases.csv")
    assert len(cases) == 9
    for case in cases:
        worked = int(case["minutes_worked"])
        assert chargeable(worked, HALF_HOURS_UP) == int(case["min60_then_30_up"]), worked
        assert chargeable(worked, QUARTERS_UP) == int(case["min60_then_15_up"]), worked
        assert chargeable(worked, NEAREST_QUARTER) == int(case["min60_nearest_15_half_up"]), worked
        assert price(worked, TRADER_D) == Decimal(case["trader_D_price"]), worked
        assert price(worked, TRADER_C) == Decimal(case["trader_C_price_ex_vat"]), worked


@pytest.mark.parametrize(("worked", "charged", "money"), [(45, 60, "50"), (80, 90, "65"), (100, 120, "80")])
def test_the_three_published_half_hour_cases(worked: int, charged: int, money: str) -> None:
    # published terms of trader D (chargeable_time_conventions.csv): 45 min -> 1 h, 1 h 20 -> 1.5 h, 1 h 40 -> 2 h
    assert chargeable(worked, TRADER_D) == charged
    assert price(worked, TRADER_D) == Decimal(money)


def test_61_minutes_under_three_conventions() -> None:
    # supply.md, "Money": 61 min: 90 / 75 / 60 under 30-up / 15-up / nearest-15
    assert [chargeable(61, rule) for rule in (HALF_HOURS_UP, QUARTERS_UP, NEAREST_QUARTER)] == [90, 75, 60]


def test_half_a_step_is_a_whole_one_to_the_nearest() -> None:
    # as the column `min60_nearest_15_half_up` says it; half a step is a whole minute only where the step is even
    nearest_half_hour = labour(minimum_min=60, step_min=30, direction="nearest")
    assert [chargeable(worked, nearest_half_hour) for worked in (74, 75, 104, 105)] == [60, 90, 90, 120]


def test_a_return_visit_waives_the_minimum_where_the_terms_say_so() -> None:
    # published terms of traders C and F; what 20 and 22 minutes come to is worked by hand from them
    assert price(20, TRADER_C) == 40
    assert price(20, TRADER_C, return_visit=True) == 8  # nearest quarter: 15 min at 32.00
    assert price(23, TRADER_C, return_visit=True) == 16  # 30 min
    assert price(30, TRADER_F) == 105
    assert price(30, TRADER_F, return_visit=True) == Decimal("42.5")
    assert price(20, TRADER_D, return_visit=True) == 50  # these terms waive nothing


def test_actual_time_is_charged_to_the_minute_after_the_minimum() -> None:
    assert [chargeable(worked, TRADER_F) for worked in (1, 60, 61, 127)] == [60, 60, 61, 127]
    assert price(120, TRADER_F) == 190


def test_the_half_hour_price_of_the_fifth_trader() -> None:
    assert [price(worked, TRADER_E) for worked in (60, 61, 120)] == [85, Decimal("127.75"), Decimal("170.50")]


# -- tax


def tax(rate: Decimal, level: str, rounding: str, **keys: Any) -> Tax:
    given = {"name": "tax", "rate_percent": rate, "level": level, "rounding": rounding, **keys}
    return Tax.model_validate(given)


def nets_of(text: str) -> list[Decimal]:
    """`1.11;1.11` is two lines; `0.02 x 10` is ten."""
    if " x " in text:
        net, times = text.split(" x ")
        return [Decimal(net)] * int(times)
    return [Decimal(net) for net in text.split(";")]


def test_every_tax_case_that_gives_lines_and_a_rate(reference: Path) -> None:
    cases = [case for case in rows(reference, "vat_rounding_cases.csv") if case["rate"]]
    assert len(cases) == 6
    for case in cases:
        nets, rate = nets_of(case["net_lines"]), Decimal(case["rate"]) * 100
        assert sum(nets) * rate / 100 == Decimal(case["exact_vat"])
        for column, level, mode in (
            ("per_line_half_up", "line", "half-up"),
            ("per_invoice_half_up", "invoice", "half-up"),
            ("per_invoice_round_down", "invoice", "down"),
        ):
            assert whole_tax(nets, tax(rate, level, mode), PENNY) == Decimal(case[column]), case


@pytest.mark.parametrize(
    ("nets", "rate", "line", "invoice", "down"),
    [
        # supply.md, "Money": constructed there, checked with decimal
        ("1.11;1.11;1.11", "20", "0.66", "0.67", "0.66"),
        ("12.345;7.125", "5", "0.98", "0.97", "0.97"),
        ("0.02 x 10", "20", "0.00", "0.04", "0.04"),
        # seen there: an accountancy forum's thread on tax rounded down to a whole penny
        ("704.88", "20", "140.98", "140.98", "140.97"),
    ],
)
def test_the_tax_cases_typed_in(nets: str, rate: str, line: str, invoice: str, down: str) -> None:
    found = [
        whole_tax(nets_of(nets), tax(Decimal(rate), level, mode), PENNY)
        for level, mode in (("line", "half-up"), ("invoice", "half-up"), ("invoice", "down"))
    ]
    assert [str(each) for each in found] == [line, invoice, down]


def test_unit_tax_to_three_places_or_the_nearest_half_penny_but_never_to_nil() -> None:
    # VAT guide 17.5.2, quoted on a forum page: 0.0024 becomes 0.002, or 0.005 and never nil
    exact = Decimal("0.0024")
    assert rounded(exact, Decimal("0.001"), "half-up") == Decimal("0.002")
    assert rounded(exact, Decimal("0.005"), "half-up") == 0
    assert rounded(exact, Decimal("0.005"), "half-up", never_nil=True) == Decimal("0.005")
    assert rounded(Decimal(0), Decimal("0.005"), "half-up", never_nil=True) == 0  # nothing stays nothing
    line = tax(Decimal(20), "line", "half-up", step="0.005", never_nil=True)
    assert line_taxes([Decimal("0.012")], line, PENNY) == (Decimal("0.005"),)


def test_line_tax_down_to_a_tenth_of_a_penny_or_to_the_nearer_penny_or_half_penny() -> None:
    # VAT guide 17.5.1, from memory: 0.8676 becomes 0.867 (down to 0.1p) or 0.87 (nearest 1p or 0.5p)
    exact = Decimal("0.8676")
    assert rounded(exact, Decimal("0.001"), "down") == Decimal("0.867")
    assert rounded(exact, PENNY, "half-up") == Decimal("0.87")
    assert rounded(exact, Decimal("0.005"), "half-up") == Decimal("0.87")


@given(st.decimals(min_value=0, max_value=10**6, places=6))
def test_a_third_decimal_above_four_rounds_up_is_half_up(exact: Decimal) -> None:
    # Streamlined Sales and Use Tax Agreement s. 324, as enacted in R.I. Gen. Laws 44-18.1-25: compute to the third
    # decimal, round up when it is greater than four. Said here with digits, not with a rounding mode.
    thousandths = int(exact * 1000)
    cents = thousandths // 10 + (thousandths % 10 > 4)
    assert rounded(exact, PENNY, "half-up") == Decimal(cents) / 100


def test_tax_contained_in_a_gross_price() -> None:
    # supply.md, "Money": gross 100 contains 16.67 at 20 % (one sixth) or 4.76 at 5 % (one twenty-first)
    assert rounded(Decimal(100) / 6, PENNY, "half-up") == Decimal("16.67")
    assert rounded(Decimal(100) * 5 / 105, PENNY, "half-up") == Decimal("4.76")


# -- rounding modes and currencies


def test_every_row_of_the_rounding_modes(reference: Path) -> None:
    cases = rows(reference, "rounding_modes.csv")
    assert len(cases) == 8
    for case in cases:
        step = Decimal(1).scaleb(-int(case["places"]))
        assert rounded(Decimal(case["value"]), step, "half-up") == Decimal(case["half_up"]), case
        assert rounded(Decimal(case["value"]), step, "half-even") == Decimal(case["half_even"]), case


@pytest.mark.parametrize(
    ("value", "mode", "found"),
    [
        ("0.125", "half-up", "0.13"),
        ("0.125", "half-even", "0.12"),
        ("1.005", "half-up", "1.01"),  # a binary fraction would give 1.00
        ("2.675", "half-up", "2.68"),  # a binary fraction would give 2.67
    ],
)
def test_the_rounding_modes_typed_in(value: str, mode: Rounding, found: str) -> None:
    # supply.md, "Money", modes: constructed there
    assert str(rounded(Decimal(value), PENNY, mode)) == found


def test_every_currency_has_the_minor_digits_of_the_standard(reference: Path) -> None:
    cases = rows(reference, "currency_minor_units.csv")
    assert {case["code"] for case in cases} == set(CURRENCIES)
    for case in cases:
        currency = CURRENCIES[case["code"]]
        assert (currency.numeric, currency.minor_digits) == (case["numeric"], int(case["minor_digits"])), case
        assert (currency.mark == "from memory") == (case["status"] == "from memory"), case
        fifths = "not decimal" in case["status"]
        assert currency.smallest == (Decimal("0.2") if fifths else Decimal(1).scaleb(-currency.minor_digits)), case


# -- mark-up and margin


def test_every_row_of_mark_up_and_margin(reference: Path) -> None:
    cases = rows(reference, "markup_margin.csv")
    assert len(cases) == 7
    for case in cases:
        cost, sold = Decimal(case["cost"]), Decimal(case["price"])
        markup, margin = Decimal(case["markup_on_cost"]) * 100, Decimal(case["margin_on_price"]) * 100
        assert abs(margin_of((sold - cost) / cost * 100) - margin) < Decimal("0.0001"), case
        assert abs(markup_of((sold - cost) / sold * 100) - markup) < Decimal("0.0001"), case
        row = Price(part="p")
        by_markup = selling(1, cost, row, Goods(markup_percent=(sold - cost) / cost * 100))
        by_margin = selling(1, cost, row, Goods(margin_percent=(sold - cost) / sold * 100))
        assert rounded(by_markup, PENNY, "half-up") == rounded(by_margin, PENNY, "half-up") == sold, case


def test_bought_at_40_and_sold_at_60() -> None:
    # supply.md, section 5, seen: 40 -> 60 is 50 % mark-up, 33.33 % margin; 75 -> 100 is 33.3 % and 25 %
    assert rounded(margin_of(Decimal(50)), PENNY, "half-up") == Decimal("33.33")
    assert rounded(markup_of(Decimal(25)), Decimal("0.1"), "half-up") == Decimal("33.3")
    assert selling(1, Decimal(75), Price(part="p"), Goods(margin_percent=Decimal(25))) == 100
