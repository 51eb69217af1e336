"""The quote as it is handed on: to the terminal, to paper, and as `--json` to other programs.

The field names and their order are a contract. Money is text with as many digits after the point as the currency has;
times are whole seconds or, where they are charged, whole minutes.
"""

import datetime
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field, WithJsonSchema

from splitpin.records.base import Row
from splitpin.records.plan import PlanNotice, Status
from splitpin.units.money import Rounding

Money = Annotated[Decimal, WithJsonSchema({"type": "string", "pattern": r"^[0-9]+(\.[0-9]+)?$"})]
LineKind = Literal["labour", "travel", "replace", "seal", "single-use", "consumable", "materials"]


class QuoteLine(Row):
    """One line. `quantity` counts pieces, or people where there are `minutes` (of each of them).

    `amount` is without tax and None where no price is known: to be confirmed, and in no total. `tax` is that of this
    line alone, where tax is taken line by line. `only_if` says what a contingent line hangs on.
    """

    kind: LineKind
    title: str
    part: str | None = None
    quantity: Annotated[int, Field(ge=1)] = 1
    minutes: Annotated[int, Field(ge=0)] | None = None
    hour: Money | None = None
    amount: Money | None = None
    tax: Money | None = None
    only_if: str | None = None


class QuoteTax(Row):
    """How tax is taken, and what it comes to."""

    name: str
    rate_percent: Money
    level: Literal["line", "invoice"]
    rounding: Rounding
    step: Money
    never_nil: bool
    amount: Money


class SoldTime(Row):
    """The time that the fixed price rests on. In `at` of a hundred such jobs the work takes at most `worked_s`.

    `likely_s` is the mean. `charged_min` is what minimum, step and direction make of `worked_s`, for each person.
    `visits` are the recorded ones that the estimate rests on.
    """

    clock: Literal["on-site", "hands-on"]
    at: Annotated[int, Field(ge=50, le=99)]
    likely_s: Annotated[int, Field(ge=0)]
    worked_s: Annotated[int, Field(ge=0)]
    charged_min: Annotated[int, Field(ge=0)]
    people: Annotated[int, Field(ge=1)]
    return_visit: bool
    visits: Annotated[int, Field(ge=0)]


class QuoteEvent(Row):
    """Something that may well go wrong, the time of which is in the price: its chance, and the time it costs once."""

    id: str
    title: str
    chance_percent: Annotated[int, Field(ge=0, le=100)]
    each_s: Annotated[int, Field(ge=0)]


class Risk(Row):
    """What the firm bears when the work takes longer than the time charged.

    `chance_percent`: of such jobs. `over_s`: the mean time over, counted over all jobs, those on time as nought;
    `over_when_late_s`: over the late ones alone. `cost`: `over_s` of every person at the rate of an hour.
    """

    chance_percent: Annotated[int, Field(ge=0, le=100)]
    over_s: Annotated[int, Field(ge=0)]
    over_when_late_s: Annotated[int, Field(ge=0)]
    cost: Money


class Quote(Row):
    """A fixed price for one job. `total` = `net` + tax; `net` is the sum of the lines that have an amount.

    `contingent` lines are charged only where they turn out to be needed; `total_with_contingent` if all of them are.
    """

    splitpin: str
    job: str
    title: str
    assembly: str
    assembly_title: str
    plan_status: Status
    firm: str
    currency: str
    minor_digits: Annotated[int, Field(ge=0, le=4)]
    rounding: Rounding
    date: datetime.date | None
    valid_until: datetime.date | None
    tasks: tuple[str, ...] = ()
    time: SoldTime
    risk: Risk
    events: tuple[QuoteEvent, ...] = ()
    lines: tuple[QuoteLine, ...]
    unpriced: Annotated[int, Field(ge=0)]
    net: Money
    tax: QuoteTax | None
    total: Money
    contingent: tuple[QuoteLine, ...] = ()
    contingent_unpriced: Annotated[int, Field(ge=0)] = 0
    total_with_contingent: Money
    consumables: Literal["each", "flat", "included"]
    markup_percent: Money  # on the cost of parts
    margin_percent: Money  # the same, of their price
    included: tuple[str, ...] = ()
    excluded: tuple[str, ...] = ()
    terms: tuple[str, ...] = ()
    notices: tuple[PlanNotice, ...] = ()
