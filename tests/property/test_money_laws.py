"""Laws of money, whatever the rates, parts and currency."""

from dataclasses import replace
from decimal import Decimal
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.pricing.job import Known, LogNormal, plan, visit

from splitpin.planning import Planned
from splitpin.pricing import quote
from splitpin.pricing.chargeable import blocks, chargeable
from splitpin.pricing.selling import margin_of, markup_of
from splitpin.records.charges import Charges, Labour
from splitpin.records.plan import PlanPart
from splitpin.records.prices import Price
from splitpin.records.quote import Quote
from splitpin.units.currencies import CURRENCIES
from splitpin.units.money import ROUNDINGS, amount, printed, rounded

MONEY = st.decimals(min_value=0, max_value=9999, places=2)
PERCENT = st.decimals(min_value=0, max_value=99, places=2)
ROUNDING = st.sampled_from(ROUNDINGS)
STEP = st.sampled_from([Decimal(text) for text in ("1", "0.1", "0.01", "0.001", "0.005", "0.20")])


@st.composite
def labours(draw: st.DrawFn) -> dict[str, Any]:
    given: dict[str, Any] = {
        "hour": draw(MONEY),
        "minimum_min": draw(st.integers(0, 240)),
        "direction": draw(st.sampled_from(["up", "nearest", "actual"])),
        "return_visit": draw(st.sampled_from(["as-any-visit", "minimum-waived"])),
    }
    if given["direction"] != "actual":
        given["step_min"] = draw(st.integers(1, 120))
    if draw(st.booleans()):
        given |= {"first_hour": draw(MONEY), "first_min": draw(st.integers(1, 240))}
    return given


@st.composite
def all_charges(draw: st.DrawFn) -> Charges:
    goods: dict[str, Any] = {"consumables": draw(st.sampled_from(["each", "flat", "included"])), "flat": draw(MONEY)}
    goods[draw(st.sampled_from(["markup_percent", "margin_percent"]))] = draw(PERCENT)
    tax: dict[str, Any] = {"name": "tax", "rate_percent": draw(PERCENT), "rounding": draw(ROUNDING)}
    tax["level"] = draw(st.sampled_from(["line", "invoice"]))
    if tax["level"] == "line":
        tax |= {"never_nil": draw(st.booleans()), "step": draw(st.none() | STEP)}
    given = {
        "currency": draw(st.sampled_from(sorted(CURRENCIES))),
        "rounding": draw(ROUNDING),
        "labour": draw(labours()),
        "travel": {"charge": draw(st.sampled_from(["none", "flat", "time"])), "flat": draw(MONEY), "hour": draw(MONEY)},
        "parts": goods,
        "tax": draw(st.none() | st.just(tax)),
    }
    return Charges.model_validate(given)


@st.composite
def part_lists(draw: st.DrawFn) -> tuple[PlanPart, ...]:
    kinds = st.sampled_from(["replace", "seal", "single-use", "consumable"])
    return tuple(
        PlanPart(part=f"p{n}", title=f"part {n}", quantity=quantity, kind=kind, certain=certain)  # type: ignore[arg-type]
        for n, (quantity, kind, certain) in enumerate(
            draw(st.lists(st.tuples(st.integers(1, 50), kinds, st.booleans()), max_size=6))
        )
    )


PRICE_LISTS = st.dictionaries(
    st.sampled_from([f"p{n}" for n in range(6)]),
    st.builds(
        Price,
        part=st.just("p"),
        cost=st.none() | st.decimals(min_value=0, max_value=9999, places=4),
        pack=st.integers(1, 100),
    ),
)
TIMES = st.builds(LogNormal, median=st.floats(60, 40_000), log_sd=st.floats(0.01, 0.8))


def made(
    charges: Charges, parts: tuple[PlanPart, ...], prices: dict[str, Price], time: LogNormal, **keys: Any
) -> Quote:
    return quote(Planned(visit(), plan(parts), None), charges, prices, Known(time, time), **keys)


@given(all_charges(), part_lists(), PRICE_LISTS, TIMES)
def test_the_total_is_the_rounded_lines_and_the_tax(
    charges: Charges, parts: tuple[PlanPart, ...], prices: dict[str, Price], time: LogNormal
) -> None:
    found = made(charges, parts, prices, time)
    currency = CURRENCIES[charges.currency]
    amounts = [line.amount for line in found.lines if line.amount is not None]
    tax = Decimal(0) if found.tax is None else found.tax.amount
    assert found.net == sum(amounts)
    assert found.total == found.net + tax
    for each in (*amounts, found.net, tax, found.total, found.total_with_contingent, found.risk.cost):
        assert isinstance(each, Decimal)
        assert each % currency.smallest == 0 and each >= 0
    for line in found.lines:
        assert line.amount is None or line.amount.as_tuple().exponent == -currency.minor_digits


@given(all_charges(), part_lists(), PRICE_LISTS, TIMES)
def test_a_line_without_a_price_is_counted_noticed_and_in_no_total(
    charges: Charges, parts: tuple[PlanPart, ...], prices: dict[str, Price], time: LogNormal
) -> None:
    found = made(charges, parts, prices, time)
    lines = (*found.lines, *found.contingent)
    assert found.unpriced + found.contingent_unpriced == sum(line.amount is None for line in lines)
    assert found.unpriced + found.contingent_unpriced == len(found.notices)
    for line in lines:
        if line.part is not None:
            priced = line.part in prices and prices[line.part].cost is not None
            assert (line.amount is not None) == priced


@given(all_charges(), part_lists(), PRICE_LISTS, TIMES, st.data())
def test_more_parts_are_never_cheaper(
    charges: Charges, parts: tuple[PlanPart, ...], prices: dict[str, Price], time: LogNormal, data: st.DataObject
) -> None:
    fewer = data.draw(st.lists(st.sampled_from(parts), unique=True)) if parts else []
    fewer = [replace(part, quantity=data.draw(st.integers(1, part.quantity))) for part in parts if part in fewer]
    less, more = made(charges, tuple(fewer), prices, time), made(charges, parts, prices, time)
    assert less.total <= more.total
    assert less.total_with_contingent <= more.total_with_contingent
    assert more.total <= more.total_with_contingent


@given(all_charges(), TIMES, st.integers(50, 98))
def test_a_surer_price_charges_no_less_time_and_risks_no_more(charges: Charges, time: LogNormal, at: int) -> None:
    less, more = (made(charges, (), {}, time, at=n) for n in (at, at + 1))
    assert less.time.charged_min <= more.time.charged_min
    assert less.risk.chance_percent >= more.risk.chance_percent
    assert less.risk.over_s >= more.risk.over_s


@given(labours(), st.integers(0, 2000), st.booleans())
def test_charged_time_follows_the_rule(given: dict[str, Any], worked: int, again: bool) -> None:
    rule = Labour.model_validate(given)
    charged = chargeable(worked, rule, return_visit=again)
    waived = again and rule.return_visit == "minimum-waived"
    least = 0 if waived else rule.minimum_min
    assert charged >= least
    assert charged <= chargeable(worked + 1, rule, return_visit=again)
    match rule.direction, rule.step_min:
        case "actual", _:
            assert charged == max(least, worked)
        case "up", int(step):
            assert worked <= charged < max(least, worked) + step
            assert (charged - least) % step == 0
        case "nearest", int(step):
            assert abs(charged - max(least, worked)) * 2 <= step
            assert (charged - least) % step == 0
    parts = list(blocks(charged, rule, return_visit=again))
    assert sum(block.minutes for block in parts) == charged


@given(st.decimals(min_value=-(10**6), max_value=10**6, places=6), STEP, ROUNDING)
def test_rounding_gives_a_whole_number_of_steps_near_by(exact: Decimal, step: Decimal, mode: Any) -> None:
    found = rounded(exact, step, mode)
    assert found % step == 0
    assert abs(found - exact) < step
    if mode.startswith("half"):
        assert abs(found - exact) * 2 <= step
    assert rounded(found, step, mode) == found
    assert rounded(-exact, step, mode) == -found


@given(st.integers(-(10**6), 10**6), STEP)
def test_half_a_step_goes_where_the_mode_says(steps: int, step: Decimal) -> None:
    half = (Decimal(steps) + Decimal("0.5")) * step
    away = steps + 1 if steps >= 0 else steps
    assert rounded(half, step, "half-up") == rounded(half, step, "up") == away * step
    assert rounded(half, step, "half-down") == rounded(half, step, "down")
    assert rounded(half, step, "half-even") / step % 2 == 0


@given(PERCENT)
def test_margin_and_mark_up_undo_each_other(percent: Decimal) -> None:
    assert abs(margin_of(markup_of(percent)) - percent) < Decimal("1e-20")
    assert abs(markup_of(margin_of(percent)) - percent) < Decimal("1e-20")
    assert margin_of(percent) <= percent <= markup_of(percent)


@given(st.decimals(min_value=-(10**9) + 1, max_value=10**9 - 1, places=4))
def test_an_amount_is_read_as_it_is_written(exact: Decimal) -> None:
    assert amount(f"{exact:f}") == exact


@settings(max_examples=300)
@given(st.text(alphabet="0123456789.,-+eE £ _٣½", max_size=10))
def test_what_is_no_plain_amount_is_none(text: str) -> None:
    found = amount(text)
    plain = text.removeprefix("-").replace(".", "", 1)
    assert found is None or (plain.isascii() and plain.isdigit() and found == Decimal(text))


@given(st.sampled_from(sorted(CURRENCIES)), MONEY)
def test_a_printed_amount_reads_back(code: str, exact: Decimal) -> None:
    currency = CURRENCIES[code]
    found = rounded(exact, currency.smallest, "half-up")
    assert amount(printed(found, currency).replace(",", "")) == found
