"""Quotes reckoned by hand.

The time is log-normal with a median of 90 min and a log deviation of 0.2, so its 80th percentile is
90 x exp(0.2 x 0.84162) = 106.5 min, 107 whole minutes; charged as 60 + 60 = 120 at quarter hours up from an hour on.
"""

import datetime
from dataclasses import replace
from decimal import Decimal

import pytest
from tests.pricing.job import (
    CLIP_BREAKS,
    ESTIMATE,
    HOUR,
    HOUR_AND_A_HALF,
    PRICES,
    RARE,
    WEEPS,
    Known,
    charges,
    plan,
    quoted,
    visit,
)

from splitpin.notices import Place
from splitpin.planning import Planned
from splitpin.pricing import quote, refusal
from splitpin.records.plan import Plan, PlanNotice, PlanStop, Refusal
from splitpin.records.prices import Price
from splitpin.records.quote import Quote

DAY = datetime.date(2026, 11, 25)


def amounts(of: Quote) -> dict[str, str | None]:
    return {line.title: None if line.amount is None else str(line.amount) for line in of.lines}


def test_the_whole_quote_by_hand() -> None:
    found = quoted(plan(), charges())
    assert (found.time.worked_s, found.time.charged_min, found.time.people) == (6390, 120, 2)
    assert amounts(found) == {
        "Labour, first block": "120.00",  # 2 people x 60 min at 60.00
        "Labour, further time": "80.00",  # 2 people x 60 min at 40.00
        "Travel to site": "30.00",  # 2 people x 30 of the 40 min at 30.00
        "circulator head": "101.04",  # 84.20 x 1.2
        "union washer": "1.17",  # 3 of 10 at 3.25, x 1.2
        "lint-free cloth": "0.48",
        "silicone grease": "1.32",
    }
    assert (str(found.net), found.tax and str(found.tax.amount), str(found.total)) == ("334.01", "66.80", "400.81")
    assert [(line.title, str(line.amount)) for line in found.contingent] == [("cover gasket", "2.76")]
    assert str(found.total_with_contingent) == "404.12"  # 336.77 + 67.354
    assert (found.unpriced, found.contingent_unpriced, found.notices) == (0, 0, ())
    assert (str(found.markup_percent), str(found.margin_percent)) == ("20.00", "16.67")


def test_waits_are_sold_or_not_as_the_firm_says() -> None:
    hands_on = charges(labour={"hour": "40.00", "direction": "actual", "clock": "hands-on"})
    found = quoted(plan(), hands_on)
    # hands-on: 60 x exp(0.1 x 0.84162) = 65.3 min
    assert (found.time.clock, found.time.charged_min) == ("hands-on", 65)
    assert amounts(found)["Labour"] == "86.67"  # 2 x 65 min at 40.00 = 86.666...
    on_site = quoted(plan(), charges(labour={"hour": "40.00", "direction": "actual"}))
    assert (on_site.time.clock, on_site.time.charged_min) == ("on-site", 107)


def test_a_return_visit_pays_neither_minimum_nor_first_block() -> None:
    rule = {"hour": "40.00", "first_hour": "60.00", "first_min": 60, "minimum_min": 180, "direction": "actual"}
    waived = charges(labour={**rule, "return_visit": "minimum-waived"})
    assert amounts(quoted(plan(), waived, job=visit(return_visit=True)))["Labour"] == "142.67"
    again = quoted(plan(), charges(labour=rule), job=visit(return_visit=True))
    assert again.time.charged_min == 180


def test_tax_line_by_line_stands_on_each_line_and_adds_up() -> None:
    found = quoted(plan(), charges(tax={"name": "VAT", "rate_percent": 20, "level": "line", "rounding": "half-up"}))
    taxes = [line.tax for line in found.lines if line.tax is not None]
    assert len(taxes) == len(found.lines)
    assert [str(line.tax) for line in found.lines[3:]] == ["20.21", "0.23", "0.10", "0.26"]
    assert found.tax is not None and found.tax.amount == sum(taxes)


def test_without_a_tax_table_no_tax_is_charged() -> None:
    found = quoted(plan(), charges(tax=None))
    assert found.tax is None
    assert found.total == found.net


@pytest.mark.parametrize(
    ("goods", "titles"),
    [
        ({"consumables": "flat", "flat": "6.50"}, ["circulator head", "union washer", "Consumables"]),
        ({"consumables": "included"}, ["circulator head", "union washer"]),
    ],
)
def test_consumables_are_charged_as_the_firm_says(goods: dict[str, str], titles: list[str]) -> None:
    found = quoted(plan(), charges(parts={"markup_percent": 20, **goods}))
    assert [line.title for line in found.lines[3:]] == titles


def test_travel_is_flat_by_time_or_not_charged() -> None:
    flat = quoted(plan(), charges(travel={"charge": "flat", "flat": "18.00"}))
    assert amounts(flat)["Travel to site"] == "18.00"  # for the visit, not for each person
    assert "Travel to site" not in amounts(quoted(plan(), charges(travel={"charge": "none"})))


def test_travel_by_time_without_its_time_is_to_be_confirmed() -> None:
    found = quoted(plan(), charges(), job=visit(travel_min=None))
    assert amounts(found)["Travel to site"] is None
    assert [notice.code for notice in found.notices] == ["travel-missing"]
    assert (found.unpriced, str(found.net)) == (1, "304.01")


# -- prices that cannot be used


def lacking(price: Price | None, **keys: object) -> Quote:
    prices = {name: row for name, row in PRICES.items() if name != "head"}
    return quoted(plan(), charges(), prices if price is None else {**prices, "head": price}, **keys)


@pytest.mark.parametrize(
    ("price", "reason"),
    [
        (None, "prices.csv has no row for it"),
        (Price(part="head"), "its `cost` is left open"),
        (
            Price(part="head", cost=Decimal(84), currency="EUR"),
            "its price is in EUR, the firm charges in GBP",
        ),
        (
            Price(part="head", cost=Decimal(84), valid_until=datetime.date(2026, 12, 1)),
            "its price holds until 2026-12-01, and is wanted until 2026-12-24",
        ),
    ],
)
def test_a_missing_price_is_a_marked_line_and_a_notice_and_never_nothing(price: Price | None, reason: str) -> None:
    found = lacking(price, valid_until=datetime.date(2026, 12, 24), listed_in=Place("prices.csv"))
    assert amounts(found)["circulator head"] is None
    assert (found.unpriced, str(found.net)) == (1, "232.97")
    (notice,) = found.notices
    assert (notice.code, notice.severity) == ("price-missing", "warning")
    assert notice.message == f"`head` (circulator head): {reason}; its price is to be confirmed"


def test_a_price_that_holds_on_the_last_day_is_used() -> None:
    price = Price(part="head", cost=Decimal(84), valid_until=DAY)
    assert lacking(price, date=DAY).unpriced == 0
    assert lacking(price).unpriced == 0  # without a day prices are taken as they stand


def test_a_price_of_nothing_is_a_price() -> None:
    found = lacking(Price(part="head", cost=Decimal(0)))
    assert (amounts(found)["circulator head"], found.unpriced) == ("0.00", 0)


def test_the_firms_own_words_stand_for_the_catalogues() -> None:
    found = lacking(Price(part="head", cost=Decimal(1), description="=Head, 6 m"))
    assert "=Head, 6 m" in amounts(found)


# -- what may go wrong


def test_the_parts_of_an_event_are_contingent_and_its_time_is_in_the_price() -> None:
    estimate = Known(HOUR_AND_A_HALF, HOUR, events=(CLIP_BREAKS, WEEPS, RARE), visits=4)
    prices = {**PRICES, "clip": Price(part="clip", cost=Decimal(2), pack=4)}
    found = quoted(plan(), charges(), prices, estimate=estimate)
    assert [(line.title, line.only_if, line.amount) for line in found.contingent] == [
        ("cover gasket", "the inspection says so", Decimal("2.76")),
        ("spring clip", "broken clip", Decimal("0.60")),
        ("releasing oil", "broken clip", None),  # the washers are on the list anyway
    ]
    assert [(event.title, event.chance_percent, event.each_s) for event in found.events] == [
        ("broken clip", 13, 320),
        ("joint that weeps", 2, 900),
    ]  # what happens in less than 1 of 100 jobs is not listed
    assert (found.contingent_unpriced, found.time.visits) == (1, 4)
    assert found.total == quoted(plan(), charges()).total


def test_what_an_event_uses_up_is_no_line_where_consumables_are_flat() -> None:
    goods = {"consumables": "flat", "flat": "6.50"}
    found = quoted(plan(), charges(parts=goods), estimate=Known(HOUR_AND_A_HALF, HOUR, events=(CLIP_BREAKS,)))
    assert [line.part for line in found.contingent] == ["gasket", "clip"]


# -- dates are passed in


def test_the_firms_days_run_from_the_day_of_the_quote() -> None:
    thirty = charges(valid_days=30)
    assert quoted(plan(), thirty).valid_until is None
    assert quoted(plan(), thirty, date=DAY).valid_until == datetime.date(2026, 12, 25)
    given = quoted(plan(), thirty, date=DAY, valid_until=datetime.date(2027, 1, 31))
    assert (given.date, given.valid_until) == (DAY, datetime.date(2027, 1, 31))


# -- other currencies


def test_a_currency_without_minor_digits_has_none_anywhere() -> None:
    found = quoted(plan(), charges(currency="JPY"))
    assert {str(line.amount) for line in found.lines} == {"120", "80", "30", "101", "1", "0"}
    assert (str(found.net), str(found.total)) == ("333", "400")  # tax 66.6 becomes 67


def test_a_currency_with_three_minor_digits_has_three() -> None:
    found = quoted(plan(), charges(currency="KWD"))
    assert amounts(found)["union washer"] == "1.170"
    assert str(found.total) == "400.812"


def test_a_currency_of_fifths_is_rounded_to_fifths() -> None:
    found = quoted(plan(), charges(currency="MRU"))
    assert amounts(found)["union washer"] == "1.20"  # 1.17, at 5.85 fifths


# -- a job that gives no price


def job(plan: Plan, *, charging: bool = True) -> Planned:
    """A job that stands in a file, planned for a firm that says what it charges, or does not."""
    asked = visit(place=Place("job.toml", 2))
    firm = asked.firm.model_copy(update={"charges": charges() if charging else None, "place": Place("firm.toml", 1)})
    return Planned(replace(asked, firm=firm), plan, None)


def test_a_plan_that_can_be_done_is_quoted() -> None:
    assert refusal(job(plan())) is None


def test_a_job_that_cannot_be_done_as_asked_is_not_quoted() -> None:
    task = Refusal(task="replace the compressor", reason="only a certified person may open it")
    refused = refusal(job(plan(refused=(task,), status="impossible")))
    assert refused is not None and refused.code == "not-quoted" and refused.place == Place("job.toml", 2)
    assert refused.message == (
        "J-7 is not quoted: it would leave out what is asked: replace the compressor "
        "(only a certified person may open it)"
    )
    notice = PlanNotice(code="no-way", severity="error", path="", line=0, column=0, message="nothing works", hint="")
    stopped = refusal(job(plan(status="impossible", notices=(notice,))))
    assert stopped is not None and stopped.message == "J-7 is not quoted: nothing works"
    idle = refusal(job(plan(steps=())))
    assert idle is not None and idle.message == "J-7 is not quoted: there is nothing to do"


def test_an_emergency_is_not_quoted() -> None:
    words = {
        "id": "gas",
        "title": "gas escape",
        "question": "Does anybody smell gas?",
        "words": "smell of gas",
        "where": "title",
        "call": "0800",
        "origin": "x",
    }
    stopped = refusal(job(plan(stops=(PlanStop(**words, do=("open windows",)),))))
    assert stopped is not None
    assert stopped.message == (
        "J-7 is not quoted: it speaks of an emergency, or its caller was not asked about one: that comes first"
    )


def test_a_firm_that_does_not_say_what_it_charges_quotes_nothing() -> None:
    told = refusal(job(plan(), charging=False))
    assert told is not None and (told.code, told.place) == ("missing-key", Place("firm.toml"))
    assert told.message == "this firm says nothing of what it charges"


def test_the_same_input_gives_the_same_quote() -> None:
    twice = [quote(Planned(visit(), plan(), None), charges(), PRICES, ESTIMATE).model_dump_json() for _ in range(2)]
    assert twice[0] == twice[1]
