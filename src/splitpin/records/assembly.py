"""An assembly as its file describes it: circuits, components, joints, moves between positions, symptoms."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from splitpin.records.base import (
    Behind,
    Count,
    Id,
    Ids,
    Kilograms,
    Minutes,
    Record,
    Seconds,
    Sourced,
    Spread,
    Text,
    Texts,
    ToolNeeds,
    _tuple,
)
from splitpin.records.words import FRAME


class Isolation(Record):
    """One way to isolate a circuit: what is used (`by`) and the condition that it makes."""

    by: Id
    makes: Id
    position: Id | None = None


class Circuit(Record):
    """A part of the plant that carries one medium and can be isolated as one. Its alternatives are equal."""

    id: Id
    title: Text | None = None
    medium: Id
    isolate: Annotated[tuple[Isolation, ...], BeforeValidator(_tuple)] = ()
    before_opening: Ids | None = None  # in place of the medium's, where this circuit differs
    after_remaking: Ids | None = None


class Work(Sourced):
    """What a task on a component takes once it is reached: `needs` says how far it must be reached."""

    needs: Literal["out", "exposed", "in-place"]
    min: Spread
    position: Id | None = None  # default: the bench when it is out, else the component's
    steps: Texts = ()
    tools: ToolNeeds = ()
    consumables: Ids = ()
    parts: Ids = ()
    conditions: Ids = ()
    proofs: Ids = ()
    cautions: Ids = ()


class Way(Record):
    """One way a component leaves its place: right out, or aside while still connected."""

    ends: Literal["out", "aside"]
    undoes: Ids | None = None  # default: every joint that holds it to things that stay
    behind: Behind = ((),)
    people: Annotated[int, Field(ge=1, le=4)] | None = None
    off_s: Seconds | None = None
    on_s: Seconds | None = None
    off_text: Text | None = None
    on_text: Text | None = None
    tools: ToolNeeds = ()
    basis: Literal["common practice", "from memory"] | None = None


class Component(Sourced):
    """A thing that can be lifted out, swung aside, worked on or replaced."""

    id: Id
    title: Text
    role: Id
    mass_kg: Kilograms | None = None
    position: Id
    behind: Behind = ((),)
    way: Annotated[tuple[Way, ...], BeforeValidator(_tuple)] = ()
    carried_by: Id | None = None
    part: Id | None = None
    part_includes: Ids = ()  # carried components that come with the new part; the others move across to it
    work: dict[Id, Work] = Field(default_factory=dict)
    forms: Ids = ()
    guards: Ids = ()
    proves: Ids = ()  # proofs that lifting or replacing it brings, beside those of its joints and boundaries
    cautions: Ids = ()
    closed_to: Id | None = None
    off_text: Text | None = None
    on_text: Text | None = None

    def _has_figures(self) -> bool:
        return self.mass_kg is not None

    @property
    def ways(self) -> tuple[Way, ...]:
        """The ways it leaves, its own `behind` being the one way out where no `[[component.way]]` is given."""
        return self.way or (Way(ends="out", behind=self.behind, place=self.place),)


class Joint(Record):
    """What holds or connects two components: n pieces of one hardware, perhaps sealed, perhaps on a circuit."""

    id: Id
    title: Text | None = None
    between: Annotated[tuple[Id, ...], BeforeValidator(_tuple), Field(min_length=2, max_length=2)]
    hardware: Text
    count: Count = 1
    pattern: Literal["cross", "even", "staged"] | None = None
    circuit: Id | None = None
    seal: Id | None = None
    seal_count: Count = 1
    position: Id
    behind: Behind = ((),)
    torque_nm: Annotated[float, Field(gt=0, le=2_000)] | None = None
    torque_source: Text | None = None
    into: Literal["steel"] | None = None  # what the thread is cut into: only then is a torque computed
    cautions: Ids = ()


class Move(Sourced):
    """Seconds to go from one position to another (and back, the same)."""

    between: Annotated[tuple[Id, ...], BeforeValidator(_tuple), Field(min_length=2, max_length=2)]
    seconds: Seconds


class Check(Record):
    """How a suspect is checked: how far it must be reached, the minutes it takes, and whether the supply must be on."""

    needs: Literal["out", "exposed", "in-place"]
    min: Minutes
    live: bool = False
    steps: Texts = ()


class Suspect(Record):
    """One likely cause of a symptom: the task on the component that would cure it; likelihoods are relative weights."""

    component: Id
    task: Id
    likelihood: Annotated[float, Field(gt=0, le=1)]
    check: Check


class Symptom(Sourced):
    """What is reported, and its suspects."""

    id: Id
    title: Text
    suspects: Annotated[tuple[Suspect, ...], BeforeValidator(_tuple), Field(min_length=1)]


class Include(Record):
    """A build that an assembly has, with what fills each of its blanks: a text, a number, or texts for a list."""

    build: Id
    fill: dict[str, Any] = Field(default_factory=dict)  # looked at where the build is filled in


class BuildHead(Record):
    """The `[build]` table: `takes` names the blanks."""

    id: Id
    title: Text
    takes: Texts = ()


class BuildFile(Record):
    """One file of `catalog/builds/`: tables of an assembly with blanks, checked where an assembly includes it."""

    format: Literal[1]
    build: BuildHead
    circuit: Any = None
    component: Any = None
    joint: Any = None
    move: Any = None
    symptom: Any = None


class AssemblyHead(Record):
    """The `[assembly]` table."""

    id: Id
    title: Text
    positions: Annotated[tuple[Id, ...], BeforeValidator(_tuple), Field(min_length=1)]
    frame: Text = FRAME  # what the fixed part is called on the sheet
    notes: Texts = ()


class Assembly(Record):
    """One file of `catalog/assemblies/`."""

    format: Literal[1]
    assembly: AssemblyHead
    include: Annotated[tuple[Include, ...], BeforeValidator(_tuple)] = ()
    circuit: Annotated[tuple[Circuit, ...], BeforeValidator(_tuple)] = ()
    component: Annotated[tuple[Component, ...], BeforeValidator(_tuple), Field(min_length=1)]
    joint: Annotated[tuple[Joint, ...], BeforeValidator(_tuple)] = ()
    move: Annotated[tuple[Move, ...], BeforeValidator(_tuple)] = ()
    symptom: Annotated[tuple[Symptom, ...], BeforeValidator(_tuple)] = ()
