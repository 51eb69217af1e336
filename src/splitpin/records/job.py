"""A job, as its file describes it."""

import datetime
from decimal import Decimal
from math import isfinite
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, ConfigDict, Field

from splitpin.records.base import Id, Ids, Record, Text, _tuple


class Task(Record):
    """What is asked: `do` a task on a component, on every component of a role, or on the seal of a joint."""

    do: Id
    component: Id | None = None
    role: Id | None = None
    joint: Id | None = None
    note: Text | None = None


class JobHead(Record):
    """The `[job]` table."""

    reference: Text
    title: Text
    assembly: Id
    date: datetime.date | None = None
    jurisdiction: Id | None = None  # default: the firm's
    plant: Literal["clean", "weathered", "corroded"] = "clean"
    people: Annotated[int, Field(ge=1, le=8)] = 1
    template: Ids = ()
    symptoms: Ids = ()
    report: Text | None = None  # what the customer said, in the customer's words
    rule_out: Ids = ()  # ways to isolate that will not work here
    already: Ids = ()  # conditions that hold when the engineer arrives
    site_factors: Ids = ()  # circumstances that make the work longer
    travel_min: Annotated[int, Field(ge=0, le=1_440)] | None = None  # to site, one way
    return_visit: bool = False  # the same job is carried on


class Typed(Record):
    """The inputs of one calculated reading, as far as the office knows them; which there are, the reading knows."""

    model_config = ConfigDict(extra="allow")

    @property
    def typed(self) -> dict[str, str]:
        """Every input as it would be typed: `static_m` is `5`, a truth is `yes` or `no`."""
        given = self.__pydantic_extra__ or {}
        return {name: _as_typed(value) for name, value in given.items()}


def _as_typed(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return format(Decimal(repr(value)), "f") if isinstance(value, float) and isfinite(value) else str(value)


class Asked(Record):
    """The `[asked]` table: who asked the caller about emergencies, when and how, and the answer to each by its id."""

    by: Text  # a role or initials
    at: datetime.datetime
    how: Text | None = None  # "by telephone with the tenant"
    answers: dict[Id, Literal["no", "yes", "unsure"]]

    @property
    def said(self) -> str:
        """Who asked, how and when, in words."""
        return ", ".join(part for part in (self.by, self.how, f"{self.at:%Y-%m-%d %H:%M}") if part)


class Site(Record):
    """What is known of the site. `facts` bring conditions, cautions and proofs; the rest is only ever printed."""

    name: Text | None = None
    address: Text | None = None
    access: Text | None = None
    contact: Text | None = None
    notes: Text | None = None
    facts: Ids = ()


class JobFile(Record):
    """A job: one visit to one piece of plant."""

    format: Literal[1]
    job: JobHead
    asked: Asked | None = None
    site: Site = Site()
    readings: dict[Id, Typed] = Field(default_factory=dict)
    task: Annotated[tuple[Task, ...], BeforeValidator(_tuple)] = ()

    @property
    def from_a_caller(self) -> bool:
        """Whether somebody reported a fault, who can be asked."""
        return bool(self.job.report or self.job.symptoms)
