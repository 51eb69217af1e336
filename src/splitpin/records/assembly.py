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
from splitpin.records.disturbance import Brings, Examination, Function, Store
from splitpin.records.points import Point
from splitpin.records.states import State, Tightness
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
    feeds: Ids | None = None  # points that let its medium in from outside; () says that none does
    drivers: Ids | None = None  # points of what heats or moves its medium from outside
    no_isolation: Text | None = None  # why it has none


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
    state: State | None = None  # what the plant must be in; any will do where none is given
    wait_min: Minutes = 0  # drying, draining, soaking after the last step
    changes: bool = False  # it adjusts: what a change brings follows


class Way(Record):
    """One way a component leaves its place: right out, or aside while still connected."""

    ends: Literal["out", "aside"]
    undoes: Ids | None = None  # default: every joint that holds it to things that stay
    behind: Behind = ((),)
    bench_behind: Behind | None = None  # at the bench; left out: of `behind`, what travels with the same carrier
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
    bench_behind: Behind | None = None
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
    open_joints: Ids = ()  # joints on it, or on what it carries, that anybody may undo though it is closed
    off_text: Text | None = None
    on_text: Text | None = None
    brings: Brings = Brings()
    stores: Annotated[tuple[Store, ...], BeforeValidator(_tuple)] = ()
    holds_settings: Texts = ()  # by name; read before, entered and read back before anything starts
    settings_from: Text | None = None  # where they come from when it is dead
    rotates: bool = False  # turned by hand before it is covered
    orientation: Text | None = None  # what is marked before it is undone and matched after
    passes: Text | None = None  # something fragile that it is drawn straight through
    must_match: Texts = ()  # what of a new part is compared before anything is opened
    sheds_into: Ids = ()  # components that catch the dirt that work on it lets fall
    out_for: Ids = ()  # proofs that run while it is out or its leads are off
    stop_line: Text | None = None  # what of it is not touched while it stays shut

    def _has_figures(self) -> bool:
        return self.mass_kg is not None

    @property
    def ways(self) -> tuple[Way, ...]:
        """The ways it leaves, its own `behind` being the one way out where no `[[component.way]]` is given."""
        return self.way or (Way(ends="out", behind=self.behind, bench_behind=self.bench_behind, place=self.place),)


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
    bench_behind: Behind | None = None  # as a way's
    torque_nm: Annotated[float, Field(gt=0, le=2_000)] | None = None
    torque_source: Text | None = None
    into: Literal["steel"] | None = None  # what the thread is cut into: only then is a torque computed
    cautions: Ids = ()
    conditions: Ids = ()  # beside those of its circuit
    proofs: Ids = ()  # beside those of its circuit
    brings: Brings = Brings()
    off_s: Seconds | None = None  # for each piece, in place of the hardware's
    on_s: Seconds | None = None
    basis: Literal["common practice", "from memory"] | None = None
    tightness: Tightness | None = None  # default: its kind's, where its medium must be tight
    bears: bool = False  # it carries the weight of what it holds: undone last, in one go with the lift


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
    point: Any = None
    examination: Any = None
    function: Any = None


class AssemblyHead(Record):
    """The `[assembly]` table."""

    id: Id
    title: Text
    positions: Annotated[tuple[Id, ...], BeforeValidator(_tuple), Field(min_length=1)]
    frame: Text = FRAME  # what the fixed part is called on the sheet
    notes: Texts = ()
    service: Text | None = None  # what people lose while it is off


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
    point: Annotated[tuple[Point, ...], BeforeValidator(_tuple)] = ()
    examination: Annotated[tuple[Examination, ...], BeforeValidator(_tuple)] = ()
    function: Annotated[tuple[Function, ...], BeforeValidator(_tuple)] = ()
