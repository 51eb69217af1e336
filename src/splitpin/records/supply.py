"""Pick lists and loads as they are handed on: to the terminal, to paper, and as `--json` to other programs.

The field names and their order are a contract. Money is text in the firm's currency; chances are shares of 1.
"""

import datetime
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field, WithJsonSchema

from splitpin.records.base import Row
from splitpin.records.plan import PlanNotice

Pieces = Annotated[int, Field(ge=0)]
Share = Annotated[float, Field(ge=0, le=1)]
Money = Annotated[Decimal, WithJsonSchema({"type": "string"})]
PickKind = Literal["replace", "seal", "single-use", "consumable"]


class PickPlace(Row):
    """So many pieces from one place."""

    location: str
    pieces: Pieces


class PickReason(Row):
    """How many pieces one job wants, and the rules that say so."""

    job: str
    pieces: Pieces
    because: tuple[str, ...] = ()


class PickInstead(Row):
    """Another part that may be taken: it supersedes the part, or does as well."""

    part: str
    title: str
    how: Literal["supersedes", "alternative"]
    in_van: Pieces
    in_store: Pieces


class PickLine(Row):
    """One part for all jobs. `wanted` = `from_van` + `draw` + `order`; `packs` are whole packs of `pack` to order.

    `bins` say where in the van those pieces lie, `draw` where in the store.

    `certain` is false where only an inspection decides. A consumable is wanted once, however many jobs use it.
    """

    part: str
    title: str
    kind: PickKind
    certain: bool
    wanted: Pieces
    from_van: Pieces = 0
    bins: tuple[PickPlace, ...] = ()
    draw: tuple[PickPlace, ...] = ()
    order: Pieces = 0
    pack: Annotated[int, Field(ge=1)] | None = None
    packs: Pieces = 0
    counted: bool = True  # whether any table of stock names it
    supplier_ref: str | None = None
    gtin: str | None = None  # the trade's article number, as the price names it
    fits: str | None = None
    instead: tuple[PickInstead, ...] = ()
    reasons: tuple[PickReason, ...] = ()

    @property
    def drawn(self) -> int:
        """Pieces from the store."""
        return sum(place.pieces for place in self.draw)


class PickJob(Row):
    """A job that the list is for; `problem` says why it adds nothing."""

    reference: str
    title: str
    problem: str | None = None


class PickList(Row):
    """What known jobs need, merged, in picking order: zone, aisle, bay and level, every second aisle backwards."""

    splitpin: str
    jobs: tuple[PickJob, ...]
    lines: tuple[PickLine, ...] = ()
    notices: tuple[PlanNotice, ...] = ()


class LoadSuspect(Row):
    """One thing that may be wrong with a job: how likely, and the chance that the visit then cures it.

    `lacks` says what is not aboard for it, or the `obstacle` for which no load can cure it. For a job whose tasks are
    known there is one, of likelihood 1.
    """

    title: str
    likelihood: Share
    cured: Share
    lacks: tuple[str, ...] = ()
    obstacle: str | None = None


class LoadJob(Row):
    """A job of the round in visiting order, with its chance to be finished at the first visit."""

    n: Annotated[int, Field(ge=1)]
    reference: str
    title: str
    assembly_title: str
    certain: bool
    chance: Share
    people: Annotated[int, Field(ge=1)]
    suspects: tuple[LoadSuspect, ...]


class LoadLine(Row):
    """A part that is aboard in the end: from the van's own stock and drawn from the store.

    `certain` of the pieces are needed whatever turns out, the rest are extras. `mass_kg` is that of one piece;
    `worth` is what the expected number of finished jobs would lose without the extras.
    """

    part: str
    title: str
    kind: PickKind
    pieces: Pieces
    certain: Pieces
    from_van: Pieces
    bins: tuple[PickPlace, ...] = ()
    draw: tuple[PickPlace, ...] = ()
    mass_kg: float | None = None
    volume_l: float | None = None
    people: Annotated[int, Field(ge=1)] = 1  # to lift one piece, by the rows of handling
    jobs: tuple[str, ...] = ()
    instead_of: str | None = None
    worth: float | None = None


class LoadTool(Row):
    """A tool of the round, where it is kept, and the jobs that use it."""

    id: str
    title: str
    place_kept: str | None = None
    owned: bool = True
    jobs: tuple[str, ...] = ()


class LoadShared(Row):
    """A part of which there is less aboard than the jobs together may want."""

    part: str
    title: str
    aboard: Pieces
    most: Pieces
    jobs: tuple[str, ...]


class LoadLift(Row):
    """A lift that wants care or a second person."""

    job: str
    title: str
    people: Annotated[int, Field(ge=1)]
    words: str


class LoadLicence(Row):
    """A licence that the round needs; `held` is None where the van's file does not say who rides."""

    id: str
    person: str
    held: bool | None
    jobs: tuple[str, ...]


class LoadLeft(Row):
    """Pieces that some fault would need and that stay behind, and why.

    Not in stock: of how many `wanted` are `there`. No room: what one piece takes (`wanted`) of what is left (`there`).
    Not worth it: how much of a job one more would finish (`gain`).
    """

    part: str
    title: str
    pieces: Pieces
    why: Literal["not-in-stock", "van-may-not", "no-room", "not-worth-it"]
    wanted: float | None = None
    there: float | None = None
    unit: Literal["piece", "kg", "l"] | None = None
    gain: float | None = None
    jobs: tuple[str, ...]


class LoadExtra(Row):
    """The one piece more that would finish most more jobs, in number of jobs."""

    part: str
    title: str
    gain: float
    in_store: bool


class LoadLimit(Row):
    """How far a limit of the van is used: what rides always, the van's stock, and what is drawn; None: no limit.

    `unknown` counts the drawn pieces and those in the van of which the figure is not known; they count as nothing.
    """

    limit: float | None
    always: float
    in_van: float
    drawn: float
    unknown: Pieces


class LoadStep(Row):
    """One line of the loading order: what goes in, and where."""

    n: Annotated[int, Field(ge=1)]
    part: str
    title: str
    pieces: Pieces
    mass_kg: float | None
    job: str
    where: str


class LoadCompared(Row):
    """A load and what comes of it. `fits` tells whether it keeps the limits of the van."""

    name: Literal["certain-only", "chosen", "everything"]
    finished: float
    every: Share
    carrying: Money
    cost: Money
    fits: bool


class RoundLoad(Row):
    """What a van carries for a round. `gap` is the share by which the expected cost may be above the least.

    `by_rule`: proved best by the cautious rule of sharing, though perhaps not all or nothing.
    """

    splitpin: str
    round: str
    title: str
    van: str
    firm: str
    date: datetime.date | None
    aim: Literal["least-cost", "fewest-return-visits"]
    currency: str | None
    status: Literal["proved", "bounded"]
    by_rule: bool
    gap: float
    finished: float
    every: Share
    jobs: tuple[LoadJob, ...]
    lines: tuple[LoadLine, ...] = ()
    tools: tuple[LoadTool, ...] = ()
    shared: tuple[LoadShared, ...] = ()
    lifts: tuple[LoadLift, ...] = ()
    licences: tuple[LoadLicence, ...] = ()
    left: tuple[LoadLeft, ...] = ()
    best_extra: LoadExtra | None = None
    mass: LoadLimit
    volume: LoadLimit
    stowing: tuple[LoadStep, ...] = ()
    compared: tuple[LoadCompared, ...] = ()
    notices: tuple[PlanNotice, ...] = ()
