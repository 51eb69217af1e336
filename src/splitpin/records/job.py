"""A job, as its file describes it."""

import datetime
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

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
    rule_out: Ids = ()  # ways to isolate that will not work here
    already: Ids = ()  # conditions that hold when the engineer arrives
    site_factors: Ids = ()  # circumstances that make the work longer
    travel_min: Annotated[int, Field(ge=0, le=1_440)] | None = None  # to site, one way
    return_visit: bool = False  # the same job is carried on


class Site(Record):
    """What is known of the site; only ever printed."""

    name: Text | None = None
    address: Text | None = None
    access: Text | None = None
    contact: Text | None = None
    notes: Text | None = None


class JobFile(Record):
    """A job: one visit to one piece of plant."""

    format: Literal[1]
    job: JobHead
    site: Site = Site()
    task: Annotated[tuple[Task, ...], BeforeValidator(_tuple)] = ()
