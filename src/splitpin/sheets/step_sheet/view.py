"""The step sheet as finished strings: everything the template prints is put into words here.

The order of the parts is that of the open procedure standards: who, where and when; what must hold; what to bring;
safety messages, gravest first; the steps; the proofs with room for their readings; what closes the visit.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from splitpin.records.plan import Plan, PlanCalculation, PlanPart, PlanProof, PlanReading, PlanTool, StepCaution
from splitpin.sheets.press import wording
from splitpin.sheets.press.blocks import Fact, Item
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.running import Line, running
from splitpin.sheets.step_sheet.position_map import PositionMap, position_map
from splitpin.sheets.step_sheet.reasons import Reason, reasons
from splitpin.sheets.step_sheet.removal_map import RemovalMap, removal_map
from splitpin.sheets.step_sheet.timeline import TimeLine, time_line
from splitpin.units import clock

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile

# Printed where it matters (proofs, tool list, header, refusals), so not said again among the notices.
_SEVERAL = " / "  # between the names of values that are written down together: "L1 / L2 / L3"
_WORDS = ("list", "text", "as the device")  # units of readings that are words
_LONG = 5  # rows from which on a proof may go on over the page
_SAID_ELSEWHERE = ("limit-not-set", "tool-not-owned", "not-proved", "closed-to")


@dataclass(frozen=True, slots=True, kw_only=True)
class Message:
    """A safety message; `word_class` names its panel in the style sheet."""

    word: str
    word_class: str
    text: str
    steps: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepRow:
    """A step with all that stands before, in and after its line."""

    heading: str | None
    heading_clock: str
    idle: str | None
    cautions: tuple[Message, ...]
    n: str
    proof: str | None
    text: str
    lift: str
    notes: tuple[str, ...]
    record: str | None
    blanks: tuple[str, ...]
    wait: str | None
    tools: tuple[str, ...]
    position: str
    time: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingRow:
    """A reading with its limit and where the limit comes from; `judged` where there is one, or should be.

    `room`: how much is to be written: "" is one figure, "large" several, "wide" words.
    """

    title: str
    unit: str
    yes_no: bool
    room: str
    judged: bool
    limit: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A place in a calculation: what is known, or a box to fill in where `text` is empty."""

    label: str
    name: str = ""
    text: str
    unit: str
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A calculation: what goes in, what comes out, and by which formula from where."""

    title: str
    inputs: tuple[Slot, ...]
    figures: tuple[Slot, ...]
    outside: str
    formula: str
    source: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofBlock:
    """A proof; without readings, its title alone is passed or failed."""

    title: str
    when: str
    joints: str
    readings: tuple[ReadingRow, ...]
    worked: tuple[Worked, ...]
    long: bool
    failure: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StepSheet:
    """Everything on a step sheet, in the order in which it is printed."""

    firm: str
    phone: str | None
    reference: str
    title: str
    tasks: tuple[str, ...]
    task_notes: tuple[Fact, ...]
    facts: tuple[Fact, ...]
    times: tuple[Fact, ...]
    proved: str
    standing: str
    obstacles_heading: str | None
    obstacles: tuple[Fact, ...]
    refused: tuple[Fact, ...]
    warnings: tuple[Fact, ...]
    who: tuple[Item, ...]
    conditions: tuple[Item, ...]
    tools: tuple[Item, ...]
    consumables: tuple[Item, ...]
    certain: tuple[Item, ...]
    uncertain: tuple[Item, ...]
    messages: tuple[Message, ...]
    map: RemovalMap | None
    strip: TimeLine | None
    positions: PositionMap | None
    steps: tuple[StepRow, ...]
    rest: str | None
    proofs: tuple[ProofBlock, ...]
    worked: tuple[Worked, ...]
    reasons: tuple[Reason, ...]


def view(plan: Plan, job: JobFile, firm: FirmFile, t: Words = ENGLISH) -> StepSheet:
    """The step sheet of `plan`; `job` and `firm` add what the plan does not repeat: site, date, state of the plant."""
    course = running(plan)
    obstacles = tuple(_notices(plan, "error"))
    return StepSheet(
        firm=firm.firm.title,
        phone=firm.firm.phone,
        reference=plan.job,
        title=plan.title,
        tasks=plan.tasks,
        task_notes=tuple(Fact(label=wording.sentence(row.task), text=row.note) for row in plan.task_notes),
        facts=job_facts(plan, job, t),
        times=(
            Fact(label=t("hands-on"), text=clock(plan.times.hands_on_s)),
            Fact(label=t("waiting"), text=clock(plan.times.waiting_s)),
            Fact(label=t("elapsed"), text=clock(plan.times.elapsed_s)),
        ),
        proved=wording.how_proved(plan, t),
        standing=t(wording.STANDING),
        obstacles_heading=_obstacles_heading(plan, obstacles, t),
        obstacles=obstacles,
        refused=tuple(Fact(label=wording.sentence(refusal.task), text=refusal.reason) for refusal in plan.refused),
        warnings=tuple(_notices(plan, "warning")),
        who=tuple(
            Item(title=wording.sentence(licence.person), remark=wording.licence_words(licence, t))
            for licence in plan.licences
        ),
        conditions=tuple(
            Item(title=wording.sentence(condition.title), remark=wording.condition_words(plan, condition, t))
            for condition in plan.conditions
        ),
        tools=tuple(_tool(plan, tool, t) for tool in plan.tools),
        consumables=tuple(_item(part, t) for part in plan.parts if part.kind == "consumable"),
        certain=tuple(_item(part, t) for part in plan.parts if part.kind != "consumable" and part.certain),
        uncertain=tuple(_item(part, t) for part in plan.parts if part.kind != "consumable" and not part.certain),
        messages=tuple(_front_message(plan, caution, t) for caution in wording.gravest_first(plan.cautions)),
        map=removal_map(plan, t),
        strip=time_line(plan, t),
        positions=position_map(plan, t),
        steps=tuple(_step_row(plan, line, t) for line in course.lines),
        rest=wording.idle_words(course.rest, t) if course.rest else None,
        proofs=tuple(_proof_block(plan, proof, t) for proof in plan.proofs),
        worked=tuple(_worked(row, row.title, t) for row in plan.calculations),
        reasons=reasons(plan, t),
    )


def job_facts(plan: Plan, job: JobFile, t: Words) -> tuple[Fact, ...]:
    """Where the job is, at what, and what the office knows of it."""
    site = job.site
    given = (
        (t("Plant"), f"{wording.sentence(plan.assembly_title)} ({t(job.job.plant)})"),
        (t("Date"), wording.day(job.job.date, t) if job.job.date else ""),
        (t("Site"), "\n".join(line for line in (site.name, site.address) if line)),
        (t("Contact"), site.contact or ""),
        (t("Access"), site.access or ""),
        (t("Notes"), site.notes),
        (t("Report"), job.job.report),
        (t("Ruled out"), _ruled_out(plan, t)),
        (t("People"), wording.people_words(plan.people, t)),
    )
    return tuple(Fact(label=label, text=text) for label, text in given if text is not None)


def _ruled_out(plan: Plan, t: Words) -> str | None:
    """Who ruled an emergency out, where no warning says it already."""
    warned = any(notice.code == "emergency-ruled-out" for notice in plan.notices)
    return None if warned or plan.ruled_out is None else t("Emergency: {words}", words=plan.ruled_out)


def _notices(plan: Plan, severity: str) -> Iterable[Fact]:
    for notice in plan.notices:
        if notice.severity == severity and notice.code not in _SAID_ELSEWHERE:
            yield Fact(label=notice.message, text=notice.hint)


def _tool(plan: Plan, tool: PlanTool, t: Words) -> Item:
    used = wording.step_numbers((step.n for step in plan.steps if tool.id in step.tools), t)
    missing = [] if tool.owned else [t(wording.NOT_OWNED)]
    return Item(title=tool.title, remark=", ".join([*([used] if used else []), *missing]))


def _obstacles_heading(plan: Plan, obstacles: tuple[Fact, ...], t: Words) -> str | None:
    if not plan.steps and plan.status == "impossible":
        return t("No plan can be made: proved impossible")
    return t("Put right before work begins") if obstacles else None


def _item(part: PlanPart, t: Words) -> Item:
    remark = "" if part.kind == "consumable" else wording.part_words(part, t)
    return Item(quantity=f"{part.quantity} ×", title=part.title, remark=remark)


def _message(caution: StepCaution, t: Words, steps: str = "") -> Message:
    return Message(word=t(caution.word), word_class=caution.word.lower(), text=caution.text, steps=steps)


def _front_message(plan: Plan, caution: StepCaution, t: Words) -> Message:
    guarded = [step.n for step in plan.steps if any(own.id == caution.id for own in step.cautions)]
    return _message(caution, t, t("before {steps}", steps=wording.step_numbers(guarded, t)) if guarded else "")


def _step_row(plan: Plan, line: Line, t: Words) -> StepRow:
    step = line.step
    titles = wording.tool_titles(plan)
    notes = [wording.people_words(step.people, t)] if step.people > 1 and not step.lift else []
    notes += [torque] if (torque := wording.torque_words(step, t)) else []
    notes += wording.seal_words(plan, step, t)
    return StepRow(
        heading=wording.phase_heading(line, t) if line.opens_phase else None,
        heading_clock=t("from {time}", time=clock(step.start_s)) if step.start_s else "",
        idle=wording.idle_words(line.idle, t) if line.idle else None,
        cautions=tuple(_message(caution, t) for caution in wording.gravest_first(step.cautions)),
        n=str(step.n),
        proof=wording.proof_heading(plan, line, t),
        text=step.text,
        lift=step.lift or "",
        notes=tuple(notes),
        record=wording.sentence(step.record) if step.record else None,
        blanks=tuple(wording.sentence(step.record).split(_SEVERAL)) if step.record else (),
        wait=wording.wait_words(line, t),
        tools=tuple(titles.get(tool, wording.spoken(tool)) for tool in step.tools),
        position=wording.spoken(step.position) if step.position else "",
        time=clock(step.seconds),
    )


def _proof_block(plan: Plan, proof: PlanProof, t: Words) -> ProofBlock:
    said: dict[str, str] = {}
    rows = []
    for reading in proof.readings:
        source = wording.limit_source(reading)
        # The readings of one proof often share a long source: it is printed once and then pointed at.
        pointer = t("as for {title}", title=wording.inside(said[source])) if source in said else source
        said.setdefault(source, reading.title)
        rows.append(
            ReadingRow(
                title=wording.sentence(reading.title),
                unit=wording.unit_words(reading),
                yes_no=reading.unit == wording.YES_NO,
                room=_room(reading),
                judged=wording.judged(reading),
                limit=wording.limit_words(reading, t),
                source=min(source, pointer, key=len),
            )
        )
    return ProofBlock(
        title=wording.sentence(proof.title),
        when=wording.proof_words(plan, proof, t),
        joints=", ".join(wording.spoken(joint) for joint in proof.joints),
        readings=tuple(rows),
        worked=tuple(_of_readings(proof, t)),
        long=len(proof.readings) + len(proof.calculations) > _LONG,
        failure=proof.failure,
    )


def _room(reading: PlanReading) -> str:
    if reading.unit in _WORDS and not wording.judged(reading):
        return "wide"
    return "large" if _SEVERAL in reading.title or reading.unit in _WORDS else ""


def _of_readings(proof: PlanProof, t: Words) -> Iterable[Worked]:
    """The calculations of a proof; what one has said of its formula and source, another of the same kind does not."""
    titles = {reading.id: reading.title for reading in proof.readings}
    first: dict[str, str] = {}
    for row in proof.calculations:
        first_one, *rest = [titles[reading] for reading in row.readings]
        about = t.listed([first_one, *map(wording.inside, rest)])
        alone = sum(other.name == row.name for other in proof.calculations) == 1
        worked = _worked(row, row.title if alone else about, t)
        if row.name in first:
            worked = replace(
                worked, formula=t("as for {title}", title=wording.inside(first[row.name])), source="", note=""
            )
        first.setdefault(row.name, about)
        yield worked


def _worked(row: PlanCalculation, title: str, t: Words) -> Worked:
    return Worked(
        title=wording.sentence(title),
        inputs=tuple(
            Slot(
                label=wording.sentence(one.title),
                name=one.name,
                text=wording.input_words(one, t),
                unit=one.unit or one.allowed,
            )
            for one in row.inputs
        ),
        figures=tuple(
            Slot(
                label=wording.sentence(figure.title),
                text=wording.figure_words(figure, t),
                unit=figure.unit if figure.unit != "ratio" else "",
                remark=wording.verdict_words(figure, t),
            )
            for figure in row.figures
        ),
        outside=wording.sentence(row.outside or ""),
        formula=row.formula,
        source=row.source,
        note=row.note or "",
    )
