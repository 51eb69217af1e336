"""What a visit really was: times, readings, parts, the fault found. A visit in JSON or TOML is read into this."""

import datetime
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, StringConstraints

from splitpin.records.base import Id, Record, Text, _tuple
from splitpin.records.plan import Phase

Minutes = Annotated[float, Field(ge=0, le=10_000, allow_inf_nan=False)]


class ActualStep(Record):
    """One step of the sheet as it was done: its number on the sheet, ticked or not, and what was noted."""

    n: Annotated[int, Field(ge=1)]
    done: bool
    note: Text | None = None


class ActualReading(Record):
    """A value read on site; `result` is against the limit that the sheet carried."""

    proof: Id
    reading: Id
    value: Annotated[float, Field(allow_inf_nan=False)]
    unit: Text
    result: Literal["pass", "fail", "no-limit"]


class ActualPart(Record):
    """Pieces of one part that were fitted or used up."""

    part: Id
    quantity: Annotated[int, Field(ge=1, le=1000)]


class Finding(Record):
    """The cause that was found: a component, and the task that cured it."""

    component: Id
    task: Id


class Photo(Record):
    """A picture as a data URL of half a megabyte at most."""

    name: Text
    data: Annotated[str, StringConstraints(max_length=524_288)]


class Signature(Record):
    """Who signed, in which capacity."""

    role: Text
    name: Text


class Actual(Record):
    """One visit as it was. Minutes are hands-on; `waiting_min` apart. Either `total_min` or `phases` must be there."""

    format: Literal[1]
    job: Text  # the job's reference
    assembly: Id
    date: datetime.date
    total_min: Minutes | None = None
    waiting_min: Minutes | None = None
    phases: dict[Phase, Minutes] = Field(default_factory=dict)
    steps: Annotated[tuple[ActualStep, ...], BeforeValidator(_tuple)] = ()
    readings: Annotated[tuple[ActualReading, ...], BeforeValidator(_tuple)] = ()
    parts: Annotated[tuple[ActualPart, ...], BeforeValidator(_tuple)] = ()
    found: Annotated[tuple[Finding, ...], BeforeValidator(_tuple)] = ()
    notes: Text | None = None
    photos: Annotated[tuple[Photo, ...], BeforeValidator(_tuple)] = ()
    signatures: Annotated[tuple[Signature, ...], BeforeValidator(_tuple)] = ()
