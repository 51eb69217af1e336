"""The plan as it is handed on: to the terminal, to paper, and as `--json` to other programs.

The field names and their order are a contract. Times are whole seconds from the start of the visit's hands-on work.
"""

import json
from dataclasses import asdict, dataclass
from typing import Annotated, Any, ClassVar, Literal, NamedTuple

from splitpin.notices import Notice

Phase = Literal["make-safe", "strip", "work", "refit", "release", "prove", "hand-over"]
Action = Literal["make", "confirm", "undo", "take", "work", "seal", "fit", "remake", "release", "prove", "record"]
Status = Literal["proved", "bounded", "impossible"]
Word = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]


class _AtLeast(NamedTuple):
    """The least that a whole number may be, for the schema. Only who asks for the schema loads pydantic."""

    least: int

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> dict[str, Any]:
        return {**handler(source), "ge": self.least}


class _Row:
    __pydantic_config__: ClassVar = {"extra": "forbid"}

    def __repr__(self) -> str:
        """One for all rows: written for each, it would take a tenth of the time that a plan takes to start."""
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in vars(self).items())})"


@dataclass(frozen=True, kw_only=True, repr=False)
class StepCaution(_Row):
    """A safety message that stands before the step it guards."""

    id: str
    word: Word
    text: str


@dataclass(frozen=True, kw_only=True, repr=False)
class Step(_Row):
    """One imperative line. `seconds` is hands-on, tool change and walk included; `wait_s` then runs by itself.

    `lift` says for a heavy component how many lift it, and why.
    """

    n: Annotated[int, _AtLeast(1)]
    phase: Phase
    action: Action
    text: str
    component: str | None = None
    joint: str | None = None
    condition: str | None = None
    proof: str | None = None
    tools: tuple[str, ...] = ()
    position: str | None = None
    people: Annotated[int, _AtLeast(1)] = 1
    seconds: Annotated[int, _AtLeast(0)]
    wait_s: Annotated[int, _AtLeast(0)] = 0
    start_s: Annotated[int, _AtLeast(0)]
    cautions: tuple[StepCaution, ...] = ()
    seals: tuple[str, ...] = ()
    torque_nm: float | None = None
    record: str | None = None
    lift: str | None = None
    because: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class OpenedComponent(_Row):
    """A component that the plan takes out or moves aside; `after` are those that had to leave straight before it."""

    id: str
    title: str
    ends: Literal["out", "aside"]
    after: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class Opened(_Row):
    """Everything the plan disturbs."""

    components: tuple[OpenedComponent, ...] = ()
    joints: tuple[str, ...] = ()
    circuits: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanTool(_Row):
    """A tool to have at hand, and why."""

    id: str
    title: str
    owned: bool = True
    because: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanPart(_Row):
    """A part to have aboard; `certain` is false where an inspection decides, `pack` says in how many it is sold."""

    part: str
    title: str
    quantity: Annotated[int, _AtLeast(1)]
    kind: Literal["replace", "seal", "single-use", "consumable"]
    certain: bool
    because: tuple[str, ...] = ()
    pack: Annotated[int, _AtLeast(1)] | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanReading(_Row):
    """A value to be read; with neither bound, `note` says where the limit must come from."""

    id: str
    title: str
    unit: str
    min: float | None = None
    max: float | None = None
    source: str | None = None
    note: str | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanInput(_Row):
    """An input of a calculation: a `value` as text, or blank until it is read; `reading` names the reading it is."""

    name: str
    title: str
    unit: str
    allowed: str
    value: str | None = None
    by_default: bool = False
    reading: str | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanFigure(_Row):
    """What a calculation gives: blank until its inputs are known; `passes` where a limit could be compared."""

    title: str
    unit: str
    value: str | None = None
    limit: str | None = None
    limit_source: str | None = None
    passes: bool | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanCalculation(_Row):
    """A figure that is worked out, with its formula and source. `readings` are those of the proof that it goes with;
    `outside` says why there is no figure although every input is known.
    """

    name: str
    title: str
    readings: tuple[str, ...] = ()
    inputs: tuple[PlanInput, ...] = ()
    figures: tuple[PlanFigure, ...] = ()
    outside: str | None = None
    formula: str
    source: str
    note: str | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanStop(_Row):
    """An emergency that the report speaks of: the words as they stand, where, what to do, whom to call."""

    id: str
    title: str
    words: str
    where: str
    do: tuple[str, ...]
    call: str
    origin: str


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanProof(_Row):
    """A test that the disturbances bring."""

    id: str
    title: str
    stage: Literal["open", "closed", "live"]
    joints: tuple[str, ...] = ()
    readings: tuple[PlanReading, ...] = ()
    calculations: tuple[PlanCalculation, ...] = ()
    failure: str
    because: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanCondition(_Row):
    """A state of the plant that the work needs; `already` when the job says it holds."""

    id: str
    title: str
    already: bool = False
    because: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class Licence(_Row):
    """Who may do these steps, by number, and why."""

    id: str
    person: str
    steps: tuple[int, ...] = ()
    because: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class TaskNote(_Row):
    """What the job's file notes on one of its tasks, in its own words; `task` is the task as `tasks` words it."""

    task: str
    note: str


@dataclass(frozen=True, kw_only=True, repr=False)
class Refusal(_Row):
    """A task that the plan leaves out, and why."""

    task: str
    reason: str


@dataclass(frozen=True, kw_only=True, repr=False)
class Times(_Row):
    """Hands-on and waiting add up to elapsed."""

    hands_on_s: Annotated[int, _AtLeast(0)]
    waiting_s: Annotated[int, _AtLeast(0)]
    elapsed_s: Annotated[int, _AtLeast(0)]


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanNotice(_Row):
    """A notice about the plan, as in `check --json`."""

    code: str
    severity: Literal["error", "warning", "note"]
    path: str
    line: int
    column: int
    message: str
    hint: str
    included_at: str = ""

    @classmethod
    def of(cls, notice: Notice) -> "PlanNotice":
        """The same notice as a row."""
        place = notice.place
        return cls(
            code=notice.code,
            severity=notice.severity,
            path=place.path,
            line=place.line,
            column=place.column,
            message=notice.message,
            hint=notice.hint,
            included_at=place.included_at,
        )


@dataclass(frozen=True, kw_only=True, repr=False)
class Plan(_Row):
    """A whole repair: proved best, bounded by `gap_s`, or impossible with the reasons among the notices.

    With `stops` there is no plan at all: the job speaks of an emergency. `ruled_out` says who ruled one out, and how.
    """

    splitpin: str
    job: str
    title: str
    assembly: str
    assembly_title: str
    status: Status
    gap_s: Annotated[int, _AtLeast(0)]
    stops: tuple[PlanStop, ...] = ()
    ruled_out: str | None = None
    tasks: tuple[str, ...] = ()
    task_notes: tuple[TaskNote, ...] = ()
    refused: tuple[Refusal, ...] = ()
    conditions: tuple[PlanCondition, ...] = ()
    steps: tuple[Step, ...] = ()
    opened: Opened = Opened()
    tools: tuple[PlanTool, ...] = ()
    parts: tuple[PlanPart, ...] = ()
    proofs: tuple[PlanProof, ...] = ()
    calculations: tuple[PlanCalculation, ...] = ()
    cautions: tuple[StepCaution, ...] = ()
    times: Times
    people: Annotated[int, _AtLeast(1)]
    licences: tuple[Licence, ...] = ()
    notices: tuple[PlanNotice, ...] = ()


def plan_json(plan: Plan) -> str:
    """The plan as `--json` prints it. Cost grows with the number of rows."""
    return json.dumps(asdict(plan), ensure_ascii=False, indent=2)
