"""The plan as it is handed on: to the terminal, to paper, and as `--json` to other programs.

The field names and their order are a contract. Times are whole seconds from the start of the visit's hands-on work.
"""

import json
from dataclasses import asdict, dataclass
from typing import Annotated, Any, Literal

from splitpin.notices import Notice
from splitpin.records.plan_rows import (
    AtLeast,
    Brought,
    PlanFunction,
    PlanRow,
    PlanWay,
    StepAct,
    StepPoint,
    StopLine,
)

Phase = Literal["make-safe", "strip", "work", "refit", "release", "prove", "hand-over"]
Action = Literal["make", "confirm", "undo", "take", "work", "seal", "fit", "remake", "release", "prove", "record"]
Status = Literal["proved", "bounded", "impossible"]
Word = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]


@dataclass(frozen=True, kw_only=True, repr=False)
class StepCaution(PlanRow):
    """A safety message that stands before the step it guards."""

    id: str
    word: Word
    text: str


@dataclass(frozen=True, kw_only=True, repr=False)
class Step(PlanRow):
    """One imperative line. `seconds` is hands-on, tool change and walk included; `wait_s` then runs by itself.

    `lift` says for a heavy component how many lift it, and why. `state` is what the plant must be in, the wait with it;
    `only_if` the reading, and what it must say, for the line to be done at all.
    """

    n: Annotated[int, AtLeast(1)]
    phase: Phase
    action: Action
    text: str
    component: str | None = None
    joint: str | None = None
    condition: str | None = None
    proof: str | None = None
    tools: tuple[str, ...] = ()
    position: str | None = None
    people: Annotated[int, AtLeast(1)] = 1
    seconds: Annotated[int, AtLeast(0)]
    wait_s: Annotated[int, AtLeast(0)] = 0
    start_s: Annotated[int, AtLeast(0)]
    cautions: tuple[StepCaution, ...] = ()
    seals: tuple[str, ...] = ()
    torque_nm: float | None = None
    record: str | None = None
    lift: str | None = None
    because: tuple[str, ...] = ()
    points: tuple[StepPoint, ...] = ()
    acts: tuple[StepAct, ...] = ()
    state: str | None = None
    only_if: str | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class OpenedComponent(PlanRow):
    """A component that the plan takes out or moves aside; `after` are those that had to leave straight before it."""

    id: str
    title: str
    ends: Literal["out", "aside"]
    after: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class Opened(PlanRow):
    """Everything the plan disturbs."""

    components: tuple[OpenedComponent, ...] = ()
    joints: tuple[str, ...] = ()
    circuits: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanTool(PlanRow):
    """A tool to have at hand, and why; what is worn or laid, from which step on."""

    id: str
    title: str
    owned: bool = True
    because: tuple[str, ...] = ()
    from_step: int | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanPart(PlanRow):
    """A part to have aboard; `certain` is false where an inspection decides, `pack` says in how many it is sold.

    `must_match` is what is compared before anything is opened, `only_if` the reading that decides.
    """

    part: str
    title: str
    quantity: Annotated[int, AtLeast(1)]
    kind: Literal["replace", "seal", "single-use", "consumable"]
    certain: bool
    because: tuple[str, ...] = ()
    pack: Annotated[int, AtLeast(1)] | None = None
    must_match: tuple[str, ...] = ()
    only_if: str | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanReading(PlanRow):
    """A value to be read; with neither bound, `note` says where the limit must come from.

    `as_found`: it is read before the work too, in the same row; `not_found` says why it could not be.
    """

    id: str
    title: str
    unit: str
    min: float | None = None
    max: float | None = None
    source: str | None = None
    note: str | None = None
    as_found: bool = False
    not_found: str | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanInput(PlanRow):
    """An input of a calculation: a `value` as text, or blank until it is read; `reading` names the reading it is."""

    name: str
    title: str
    unit: str
    allowed: str
    value: str | None = None
    by_default: bool = False
    reading: str | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanFigure(PlanRow):
    """What a calculation gives: blank until its inputs are known; `passes` where a limit could be compared."""

    title: str
    unit: str
    value: str | None = None
    limit: str | None = None
    limit_source: str | None = None
    passes: bool | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanCalculation(PlanRow):
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
class PlanStop(PlanRow):
    """An emergency that the job tells of: the words as they stand, where, what to do, whom to call.

    With no `words` it is a question that is still to be asked, and what to do at a yes.
    """

    id: str
    title: str
    question: str
    words: str
    where: str
    do: tuple[str, ...]
    call: str
    origin: str


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanProof(PlanRow):
    """A test that the disturbances bring. `points` were opened and shut again, and are looked at with the joints;
    `seen_covered` says how its last look is had with the covers on.
    """

    id: str
    title: str
    stage: Literal["apart", "open", "closed", "live"]
    joints: tuple[str, ...] = ()
    readings: tuple[PlanReading, ...] = ()
    calculations: tuple[PlanCalculation, ...] = ()
    failure: str
    because: tuple[str, ...] = ()
    points: tuple[str, ...] = ()
    brought: tuple[Brought, ...] = ()
    way: PlanWay | None = None
    seen_covered: str | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanCondition(PlanRow):
    """A state of the plant that the work needs; `already` when the job says it holds.

    `sign` shows that it holds, `if_not` is what is done where it does not, `tells` who is told. `left` is the label
    with which it is handed over where it is not released.
    """

    id: str
    title: str
    already: bool = False
    because: tuple[str, ...] = ()
    sign: str | None = None
    if_not: str | None = None
    tells: str | None = None
    left: str | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class Licence(PlanRow):
    """Who may do these steps, by number, and why."""

    id: str
    person: str
    steps: tuple[int, ...] = ()
    because: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class TaskNote(PlanRow):
    """What the job's file notes on one of its tasks, in its own words; `task` is the task as `tasks` words it."""

    task: str
    note: str


@dataclass(frozen=True, kw_only=True, repr=False)
class Refusal(PlanRow):
    """A task that the plan leaves out, and why."""

    task: str
    reason: str


@dataclass(frozen=True, kw_only=True, repr=False)
class Times(PlanRow):
    """Hands-on and waiting add up to elapsed."""

    hands_on_s: Annotated[int, AtLeast(0)]
    waiting_s: Annotated[int, AtLeast(0)]
    elapsed_s: Annotated[int, AtLeast(0)]


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanNotice(PlanRow):
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
class NextOpening(PlanRow):
    """The next best opening that was looked at: seconds more than the plan, or more at the least; what it opens, undoes
    and makes safe that the plan does not, and what it spares."""

    more_s: Annotated[int, AtLeast(0)]
    at_least: bool
    opens: tuple[str, ...] = ()
    spares: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanChoice(PlanRow):
    """How the opening was chosen. `cost_s`: hands-on seconds that no plan with it can undercut, each tool fetched and
    each position gone to once. `work_s` and `setup_s` add up to the plan's hands-on seconds. `least_s`: the elapsed
    time that no plan can undercut."""

    cost_s: Annotated[int, AtLeast(0)]
    tried: Annotated[int, AtLeast(1)]
    work_s: Annotated[int, AtLeast(0)]
    setup_s: Annotated[int, AtLeast(0)]
    least_s: Annotated[int, AtLeast(0)]
    next: NextOpening | None = None


@dataclass(frozen=True, kw_only=True, repr=False)
class Plan(PlanRow):
    """A whole repair: proved best, bounded by `gap_s`, or impossible with the reasons among the notices.

    With `stops` there is no plan at all: the job tells of an emergency, or its caller was not asked about one.
    `ruled_out` says who ruled out which, how and when.
    """

    splitpin: str
    job: str
    title: str
    assembly: str
    assembly_title: str
    status: Status
    gap_s: Annotated[int, AtLeast(0)]
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
    people: Annotated[int, AtLeast(1)]
    licences: tuple[Licence, ...] = ()
    notices: tuple[PlanNotice, ...] = ()
    habits: tuple[str, ...] = ()  # the order is best under these
    functions: tuple[PlanFunction, ...] = ()
    stop_lines: tuple[StopLine, ...] = ()
    choice: PlanChoice | None = None


# Left out of the JSON where they say nothing: a program that reads plans need not know them.
_WHERE_SAID = frozenset(
    {"points", "acts", "state", "only_if", "from_step", "must_match", "as_found", "not_found", "brought", "way"}
    | {"seen_covered", "sign", "if_not", "tells", "left", "functions", "stop_lines", "choice", "next"}
)


def plan_json(plan: Plan) -> str:
    """The plan as `--json` prints it. Cost grows with the number of rows."""
    return json.dumps(asdict(plan, dict_factory=_said), ensure_ascii=False, indent=2)


def _said(items: list[tuple[str, Any]]) -> dict[str, Any]:
    return {name: value for name, value in items if value or name not in _WHERE_SAID}
