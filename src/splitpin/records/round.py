"""A van, the round it does, what lies in stock, and what a return visit and carrying cost the firm."""

import datetime
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from splitpin.records.base import Id, Ids, Record, Sourced, Text, _tuple
from splitpin.records.charges import Amount, Percent

Load = Annotated[float, Field(ge=0, le=5_000, allow_inf_nan=False)]  # kilograms
Room = Annotated[float, Field(ge=0, le=50_000, allow_inf_nan=False)]  # litres


class Supply(Record):
    """`[supply]` of `firm.toml`: what it is worth to have things aboard. The figures are the firm's own."""

    return_visit: Amount  # what it costs to come a second time
    carrying_percent: Percent = Decimal(0)  # of a piece's cost, for one round
    carrying_each: Amount = Decimal(0)  # for a piece drawn from the store
    store: Text | None = None  # the table of the store's stock, beside firm.toml


class VanHead(Sourced):
    """The `[van]` table. `carried_kg` is what always rides: people, tools, racking, ladders."""

    id: Id
    title: Text
    payload_kg: Load
    carried_kg: Load = 0.0
    volume_l: Room | None = None  # room for parts; left out: not judged
    people: Annotated[int, Field(ge=1, le=8)] = 1
    licences: Ids | None = None  # held by those who ride; left out: not judged
    may_not_carry: Ids = ()  # parts
    stock: Text | None = None  # the table of what lies in it, beside this file


class VanFile(Record):
    """A file of `vans/`."""

    format: Literal[1]
    van: VanHead


class RoundHead(Record):
    """The `[round]` table. `van` is a file, as seen from this one."""

    reference: Text
    title: Text
    van: Text
    date: datetime.date | None = None
    aim: Literal["least-cost", "fewest-return-visits"] = "least-cost"


class RoundVisit(Record):
    """One `[[visit]]`: a job's file, as seen from this one, in the order of the round."""

    job: Text
    return_visit: Amount | None = None  # default: the firm's


class RoundFile(Record):
    """A file of `rounds/`."""

    format: Literal[1]
    round: RoundHead
    visit: Annotated[tuple[RoundVisit, ...], BeforeValidator(_tuple), Field(min_length=1)]


class Stock(Record):
    """One row of a table of stock: so many pieces of a part in one place."""

    part: str
    quantity: int
    location: str = ""
