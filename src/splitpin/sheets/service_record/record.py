"""The service record: what was done, read, fitted and left open at a visit, beside what the plan asked for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple, get_args

from splitpin.records.plan import Phase, Plan, PlanProof, PlanReading
from splitpin.sheets.press import wording
from splitpin.sheets.press.blocks import Fact, Item
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.paper import Paper, Part, document
from splitpin.units import clock, number, seconds

if TYPE_CHECKING:
    from splitpin.records.actual import Actual, ActualReading, Photo
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile

ROLES = {"engineer": "Engineer", "customer": "Customer"}
RESULTS = {"pass": "Pass", "fail": "FAIL", "no-limit": "No limit"}


class RecordReading(NamedTuple):
    """A reading that was taken, with the limit that the plan gave it."""

    title: str
    proof: str
    limit: str
    source: str
    value: str
    unit: str
    result: str


class TimeRow(NamedTuple):
    """A phase: planned hands-on time and the time it took."""

    label: str
    planned: str
    taken: str


class ServiceRecord(NamedTuple):
    """Everything on the record, in the order in which it is printed."""

    firm: str
    phone: str | None
    reference: str
    title: str
    facts: tuple[Fact, ...]
    failed: tuple[Fact, ...]
    work: tuple[str, ...]
    readings: tuple[RecordReading, ...]
    unread: tuple[str, ...]
    times: tuple[TimeRow, ...]
    parts: tuple[Item, ...]
    undone: tuple[str, ...]
    noted: tuple[str, ...]
    remarks: str | None
    photos: tuple[Photo, ...]
    signatures: tuple[str, ...]


def service_record(
    actual: Actual, plan: Plan, job: JobFile, firm: FirmFile, *, paper: Paper = "A4", t: Words = ENGLISH
) -> str:
    """The record of the visit `actual` to the plant of `plan` as one HTML text; same input, same text."""
    return document([record_part(actual, plan, job, firm, t)], paper=paper, foot=plan.job, t=t)


def record_part(actual: Actual, plan: Plan, job: JobFile, firm: FirmFile, t: Words) -> Part:
    """The record as part of a page."""
    record = _record(actual, plan, job, firm, t)
    return Part("service_record/service-record.html.j2", f"{plan.job} – {plan.title}", {"record": record})


def _record(actual: Actual, plan: Plan, job: JobFile, firm: FirmFile, t: Words) -> ServiceRecord:
    asked = {(proof.id, reading.id): (proof, reading) for proof in plan.proofs for reading in proof.readings}
    taken = {(row.proof, row.reading) for row in actual.readings}
    done = {step.n for step in actual.steps if step.done}
    left_open = [step.n for step in plan.steps if step.n not in done]
    site = ", ".join(line for line in (job.site.name, job.site.address) if line)
    return ServiceRecord(
        firm=firm.firm.title,
        phone=firm.firm.phone,
        reference=plan.job,
        title=plan.title,
        facts=(
            Fact(label=t("Plant"), text=wording.sentence(plan.assembly_title)),
            Fact(label=t("Date"), text=t.date(actual.date)),
            *((Fact(label=t("Site"), text=site),) if site else ()),
        ),
        failed=tuple(
            Fact(label=f"{_title(row, asked)}: {_value(row, t)}", text=_failure(row, asked))
            for row in actual.readings
            if row.result == "fail"
        ),
        work=tuple(wording.sentence(task) for task in plan.tasks)
        + tuple(
            t("Cause found: {cause}", cause=f"{row.component.replace('-', ' ')} ({row.task.replace('-', ' ')})")
            for row in actual.found
        ),
        readings=tuple(_reading(row, asked, t) for row in actual.readings),
        unread=tuple(
            f"{wording.sentence(reading.title)} ({proof.title})"
            for key, (proof, reading) in asked.items()
            if key not in taken
        ),
        times=tuple(_times(actual, plan, t)),
        parts=_parts(actual, plan, t),
        undone=(t("Left open: {steps}", steps=wording.step_numbers(left_open, t)),) if done and left_open else (),
        noted=tuple(t("Step {n}: {note}", n=step.n, note=step.note) for step in actual.steps if step.note),
        remarks=actual.notes,
        photos=actual.photos,
        signatures=tuple(
            f"{t(ROLES[row.role]) if row.role in ROLES else wording.sentence(row.role)}: {row.name}"
            for row in actual.signatures
        )
        or (t("Engineer: name"), t("Customer: name")),
    )


Asked = dict[tuple[str, str], tuple[PlanProof, PlanReading]]


def _title(row: ActualReading, asked: Asked) -> str:
    found = asked.get((row.proof, row.reading))
    return wording.sentence(found[1].title if found else row.reading.replace("-", " "))


def _value(row: ActualReading, t: Words) -> str:
    if row.unit == wording.YES_NO:
        return t("yes") if row.value else t("no")
    return t.number(number(row.value)) + ("" if row.unit == "ratio" else f" {row.unit}")


def _failure(row: ActualReading, asked: Asked) -> str:
    found = asked.get((row.proof, row.reading))
    return found[0].failure if found else ""


def _reading(row: ActualReading, asked: Asked, t: Words) -> RecordReading:
    found = asked.get((row.proof, row.reading))
    yes_no = row.unit == wording.YES_NO
    return RecordReading(
        title=_title(row, asked),
        proof=found[0].title if found else t("{proof}, not asked for by the plan", proof=row.proof.replace("-", " ")),
        limit=wording.limit_words(found[1], t) if found else "",
        source=wording.limit_source(found[1]) if found else "",
        value=_value(row, t) if yes_no else t.number(number(row.value)),
        unit="" if yes_no or row.unit == "ratio" else row.unit,
        result=t(RESULTS[row.result]),
    )


def _times(actual: Actual, plan: Plan, t: Words) -> Iterator[TimeRow]:
    phases: tuple[Phase, ...] = get_args(Phase)
    for phase in phases:
        planned = sum(step.seconds for step in plan.steps if step.phase == phase)
        if planned or phase in actual.phases:
            spent = clock(seconds(actual.phases[phase])) if phase in actual.phases else ""
            yield TimeRow(t(wording.PHASES[phase]), clock(planned), spent)
    total = actual.total_min if actual.total_min is not None else sum(actual.phases.values())
    yield TimeRow(wording.sentence(t("hands-on")), clock(plan.times.hands_on_s), clock(seconds(total)))
    waited = "" if actual.waiting_min is None else clock(seconds(actual.waiting_min))
    yield TimeRow(wording.sentence(t("waiting")), clock(plan.times.waiting_s), waited)


def _parts(actual: Actual, plan: Plan, t: Words) -> tuple[Item, ...]:
    titles = {part.part: part.title for part in plan.parts}
    return tuple(
        Item(
            quantity=f"{row.quantity} ×",
            title=titles.get(row.part, row.part.replace("-", " ")),
            remark="" if row.part in titles else t("not on the plan"),
        )
        for row in actual.parts
    )
