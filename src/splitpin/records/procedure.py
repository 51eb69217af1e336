"""Conditions, proofs, cautions, limits and job templates as the files of `procedures/` describe them."""

import datetime
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from splitpin.records.base import Id, Ids, Minutes, Record, Sourced, Spread, Text, Texts, ToolNeeds, _tuple
from splitpin.records.points import Operate
from splitpin.records.states import State, States


class Caution(Record):
    """A safety message: signal word, the hazard, what follows if it is not avoided, how to avoid it."""

    id: Id
    word: Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
    hazard: Text
    consequence: Text | None = None
    avoid: Texts = ()
    wear: Ids = ()  # tools, from the first step that it guards
    lay: Ids = ()  # tools: a sheet, a tray, before that step
    act: Texts = ()  # steps of the plan, before that step


class Wording(Record):
    """Words that mean the same, in any language, and expressions in which they mean something else.

    A word may begin or end with `*` (any letters); `-` joins words that follow one another. A wording with a `cue` is
    no sign of anything: it denies what follows, puts it into the past or the present, or begins a new clause.
    """

    id: Id
    words: Annotated[tuple[Text, ...], BeforeValidator(_tuple), Field(min_length=1)]
    not_in: Texts = ()
    cue: Literal["denies", "past", "present", "breaks"] | None = None


class Emergency(Sourced):
    """What stops a job before it is planned: the question that finds it, its signs, what is done, whom to call.

    A sign is wordings that stand in one sentence, in any order, with at most `apart` other words from first to last.
    """

    id: Id
    title: Text
    question: Text
    signs: Annotated[tuple[Annotated[Ids, Field(min_length=1)], ...], BeforeValidator(_tuple), Field(min_length=1)]
    do: Annotated[tuple[Text, ...], BeforeValidator(_tuple), Field(min_length=1)]
    call: Literal["general", "gas", "electricity"]
    apart: Annotated[int, Field(ge=0, le=12)] = 6


class OnlyIf(Record):
    """What a reading must say for a step, its parts and its consumables to be wanted."""

    reading: Id
    says: Text


class Tell(Record):
    """Who is told before a service goes, and again when it is back; `loses` in place of the plant's own service."""

    who: Text
    loses: Text | None = None


class ProcedureStep(Sourced):
    """One action: hands-on minutes, and the wait that then runs by itself."""

    text: Text
    min: Minutes
    wait_min: Minutes = 0
    tools: ToolNeeds = ()
    consumables: Ids = ()
    cautions: Ids = ()
    position: Id | None = None
    record: Text | None = None  # a blank to fill in on the sheet
    operate: Annotated[tuple[Operate, ...], BeforeValidator(_tuple)] = ()
    state: State | None = None  # what the plant must be in, its wait with it
    only_if: OnlyIf | None = None
    after: Ids = ()  # proofs and conditions that come between the step before and this one, where the plan has them


class Condition(Record):
    """A state of the plant that steps need, with the steps that make it and those that release it."""

    id: Id
    title: Text
    after: Ids = ()
    excludes: Ids = ()
    make: Annotated[tuple[ProcedureStep, ...], BeforeValidator(_tuple), Field(min_length=1)]
    release: Annotated[tuple[ProcedureStep, ...], BeforeValidator(_tuple)] = ()
    release_after: Ids = ()  # proofs and conditions that come before its release, where the plan has them
    confirm: Text  # said instead of the making steps where the job says that it already holds
    cautions: Ids = ()
    licence: Id | None = None
    satisfies: Ids = ()  # lesser conditions that hold where this one does
    sign: Text | None = None  # what shows that it holds
    if_not: Text | None = None  # what is done where it does not
    of_place: bool = False  # it lasts as long as any work at the place that asks for it
    ends_open: bool = False  # released before the hand turn and the guard, not after the guard is back
    people: Annotated[int, Field(ge=1, le=4)] | None = None
    tells: Tell | None = None
    takes_away: States = ()  # states that the plant cannot be in while it holds


class AsFound(Sourced):
    """The reading taken before the work too, where the plant still runs: hands-on minutes of its own."""

    min: Minutes
    state: State | None = None


class Reading(Record):
    """A value to be read and written down; its limit, where there is one, comes from `procedures/limits/`.

    `calculated` names the calculation that goes with it: its `result` is the reading, or else a figure to hold beside
    it. `inputs` says which inputs of the calculation are other readings of the same proof.
    """

    id: Id
    title: Text
    unit: Text
    limit: Id | None = None
    calculated: Id | None = None
    result: Id | None = None
    inputs: dict[str, Id] = Field(default_factory=dict)
    as_found: AsFound | None = None


class ProofWay(Sourced):
    """One way of doing a proof: whose consent it takes, who is there, what is watched, what is done differently."""

    id: Id
    title: Text
    consent: Text
    people: Annotated[int, Field(ge=1, le=4)] = 1
    watch: Text | None = None
    changes: Texts = ()


class Proof(Record):
    """A test that must follow a disturbance."""

    id: Id
    title: Text
    stage: Literal["apart", "open", "closed", "live"]
    plant: Literal["dead", "charged", "running"]  # what the plant must be while it runs
    held: Ids = ()  # conditions that must still hold while it runs, where the plan has made them
    after: Ids = ()  # proofs that come before it, where the plan has them
    only_with: Ids = ()  # media: for plant with a circuit of one of them
    never_with: Ids = ()  # media: for plant without a circuit of any of them
    step: Annotated[tuple[ProcedureStep, ...], BeforeValidator(_tuple), Field(min_length=1)]
    reading: Annotated[tuple[Reading, ...], BeforeValidator(_tuple)] = ()
    failure: Text  # what to do when it fails
    names_joints: bool = False  # its first step lists the joints that brought it
    cautions: Ids = ()
    licence: Id | None = None
    sight: bool = True  # at the stage `open`: what brought it must be seen
    looks_again: Ids = ()  # later proofs in which the same joints are looked at once more
    seen_covered: Text | None = None  # how that look is had with the covers on
    settings: bool = False  # it enters settings and reads them back
    way: Annotated[tuple[ProofWay, ...], BeforeValidator(_tuple)] = ()


class Limit(Sourced):
    """The limit of a reading in one jurisdiction, valid between two dates; neither bound given = not set."""

    id: Id
    unit: Text
    min: Annotated[float, Field(allow_inf_nan=False)] | None = None
    max: Annotated[float, Field(allow_inf_nan=False)] | None = None
    edition: Text | None = None
    valid_from: datetime.date | None = None
    valid_until: datetime.date | None = None
    note: Text | None = None


class TemplateTask(Record):
    """One line of a job template: a task by role, or one fixed step that belongs to the visit."""

    role: Id
    do: Id


class TemplateHead(Record):
    """The `[template]` table."""

    id: Id
    title: Text


class Fact(Sourced):
    """A fact of the place, named by a job: the conditions, cautions, proofs, people and minutes that it brings."""

    id: Id
    title: Text
    conditions: Ids = ()
    cautions: Ids = ()
    proofs: Ids = ()
    people: Annotated[int, Field(ge=1, le=4)] | None = None
    min: Spread | None = None  # once a visit

    def _has_figures(self) -> bool:
        return self.people is not None or self.min is not None


class ConditionsFile(Record):
    """A file of `procedures/conditions/`."""

    format: Literal[1]
    condition: Annotated[tuple[Condition, ...], BeforeValidator(_tuple), Field(min_length=1)]


class ProofsFile(Record):
    """A file of `procedures/proofs/`."""

    format: Literal[1]
    proof: Annotated[tuple[Proof, ...], BeforeValidator(_tuple), Field(min_length=1)]


class CautionsFile(Record):
    """`procedures/cautions.toml`."""

    format: Literal[1]
    caution: Annotated[tuple[Caution, ...], BeforeValidator(_tuple), Field(min_length=1)]


class FactsFile(Record):
    """`procedures/site.toml`."""

    format: Literal[1]
    fact: Annotated[tuple[Fact, ...], BeforeValidator(_tuple), Field(min_length=1)]


class EmergenciesFile(Record):
    """`procedures/emergencies.toml`."""

    format: Literal[1]
    emergency: Annotated[tuple[Emergency, ...], BeforeValidator(_tuple), Field(min_length=1)]


class WordingsFile(Record):
    """`procedures/emergency-words.toml`."""

    format: Literal[1]
    wording: Annotated[tuple[Wording, ...], BeforeValidator(_tuple), Field(min_length=1)]


class LimitsHead(Record):
    """The `[jurisdiction]` table of a limits file."""

    id: Id
    title: Text


class LimitsFile(Record):
    """A file of `procedures/limits/`."""

    format: Literal[1]
    jurisdiction: LimitsHead
    limit: Annotated[tuple[Limit, ...], BeforeValidator(_tuple)] = ()


class JobTemplate(Record):
    """A file of `procedures/jobs/`: tasks by role, so that one template serves many assemblies."""

    format: Literal[1]
    template: TemplateHead
    task: Annotated[tuple[TemplateTask, ...], BeforeValidator(_tuple), Field(min_length=1)]
