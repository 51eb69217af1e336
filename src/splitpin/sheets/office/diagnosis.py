"""The diagnosis card: the checks in their sequence, with what to do on each answer."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.sheets.press import wording
from splitpin.sheets.press.blocks import (
    Blanks,
    Column,
    Document,
    Fact,
    Facts,
    Lines,
    Panel,
    Paragraphs,
    Row,
    Section,
    Share,
    Table,
    Ticked,
)
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.units import clock

if TYPE_CHECKING:
    from splitpin.records.diagnosis import Diagnosis, DiagnosisSuspect
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile


def diagnosis_document(diagnosis: Diagnosis, job: JobFile, firm: FirmFile, t: Words = ENGLISH) -> Document:
    """The card; without suspects it says what stands in the way."""
    return Document(
        label=t("Diagnosis card for job"),
        reference=diagnosis.job,
        title=diagnosis.title,
        firm=firm.firm.title,
        phone=firm.firm.phone or "",
        blocks=(
            Facts(tuple(_facts(diagnosis, job, t))),
            Paragraphs((t(wording.STANDING),), "standing"),
            Panel(
                t("No diagnosis can be made"),
                tuple(Fact(label=n.message, text=n.hint) for n in diagnosis.notices if n.severity == "error"),
            ),
            *(_checks(diagnosis, t) if diagnosis.suspects else ()),
        ),
    )


def _facts(diagnosis: Diagnosis, job: JobFile, t: Words) -> Iterator[Fact]:
    yield Fact(label=t("Plant"), text=wording.sentence(diagnosis.assembly_title))
    if diagnosis.report:
        yield Fact(label=t("Reported"), text=diagnosis.report)
    for symptom in diagnosis.symptoms:
        yield Fact(label=t("Symptom"), text=wording.sentence(symptom.title))
    if site := [line for line in (job.site.name, job.site.address) if line]:
        yield Fact(label=t("Site"), text="\n".join(site))


def _checks(diagnosis: Diagnosis, t: Words) -> tuple[Lines | Section, ...]:
    columns = (
        Column(name="n", head=t("Check")),
        Column(name="what", head=t("Suspect and what to look for"), wraps=True),
        Column(name="share", head=t("Likely"), right=True),
        Column(name="answer", head=t("Found"), below=True),
        Column(name="answer", head=t("Not found"), below=True),
    )
    table = Table(name="checks", columns=columns, rows=tuple(_check(diagnosis, row, t) for row in diagnosis.suspects))
    otherwise = Paragraphs((t(diagnosis.otherwise),), "standing")
    blanks = Blanks((t("Engineer: name"), t("Date")), remarks=t("Remarks"))
    return (
        Lines(tuple(_summary(diagnosis, t)), "summary"),
        Section(t("Checks, in this sequence"), (table, otherwise, blanks)),
    )


def _check(diagnosis: Diagnosis, row: DiagnosisSuspect, t: Words) -> Row:
    found, not_found = _answers(diagnosis, row, t)
    parts = [f"{part.quantity} × {part.title}" for part in row.repair.parts if part.kind != "consumable"]
    opened = f"{'; '.join(row.check.opens)} ({clock(row.check.opening_s)})"
    share = t.share(row.likelihood)
    return Row(
        cells=(
            str(row.n),
            wording.sentence(row.title),
            Share(row.likelihood, share, t("{share} likely", share=share)),
            Ticked(wording.sentence(found), ", ".join(parts)),
            Ticked(wording.sentence(not_found)),
        ),
        before=(
            *([t("First: {opened}", opened=opened)] if row.check.reach else []),
            *([_live_caution(row, t)] if row.check.live else []),
        ),
        aside=clock(row.check.seconds),
        under=row.check.steps,
    )


def _summary(diagnosis: Diagnosis, t: Words) -> Iterator[str]:
    """What the sequence is worth, in sentences."""
    times = {"find": clock(diagnosis.expected_find_s), "finish": clock(diagnosis.expected_finish_s)}
    if diagnosis.status == "proved":
        yield t("The fault is found after {find} on average and cured after {finish}; sequence proved best.", **times)
    else:
        yield t(
            "The fault is found after {find} on average and cured after {finish}; sequence at most {gap} from best.",
            gap=f"{diagnosis.gap_s} s",
            **times,
        )
    if diagnosis.comparison is not None:
        yield t(
            "Likeliest first would take {likeliest} to find it, quickest check first {quickest}.",
            likeliest=clock(diagnosis.comparison.likeliest_first_s),
            quickest=clock(diagnosis.comparison.cheapest_first_s),
        )
    if diagnosis.visits == 1:
        yield t("Likelihoods rest on 1 recorded visit and on the catalogue.")
    elif diagnosis.visits:
        yield t("Likelihoods rest on {n} recorded visits and on the catalogue.", n=diagnosis.visits)
    else:
        yield t("Likelihoods are the catalogue's; no recorded visit says otherwise yet.")


def _live_caution(row: DiagnosisSuspect, t: Words) -> str:
    """What stands before a check that needs the supply on, with the time that putting it back takes."""
    danger = t("DANGER: supply on for this check only, live parts within reach; by a competent person only.")
    after = t("Isolate and prove dead again afterwards.")
    if row.check.needs == "in-place" and not row.check.supply_s:
        return t("Supply on for this check; every cover stays closed.")
    if not row.check.supply_s:
        return f"{danger} {after}"
    back = t("Supply back and isolated again: {time} of the check.", time=clock(row.check.supply_s))
    return f"{danger} {after} {back}"


def _answers(diagnosis: Diagnosis, row: DiagnosisSuspect, t: Words) -> tuple[str, str]:
    """What to do when the check finds the fault, and when it does not."""
    repair = row.repair
    if repair.status == "impossible":
        reason = repair.reason or t("there is no plan")
        found = t("not ours to cure: {reason}. Make safe and hand on.", reason=reason)
    else:
        alone = clock(repair.elapsed_s)
        if repair.people != 1:
            own = t("{time} as a job of its own, {people}", time=alone, people=wording.people_words(repair.people, t))
        else:
            own = t("{time} as a job of its own", time=alone)
        found = t(
            "{task} the {title}; the visit then ends after {time} ({own}).",
            task=row.task.replace("-", " "),
            title=row.title,
            time=clock(row.finish_s),
            own=own,
        )
    last = row.n == len(diagnosis.suspects)
    return found, t("see below.") if last else t("go on to check {n}.", n=row.n + 1)
