"""The diagnosis card: the checks in their sequence on paper, with what to do on each answer."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from splitpin.sheets.office.diagnosis_text import answers, live_caution, summary
from splitpin.sheets.press import wording
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.paper import Paper, Part, document
from splitpin.sheets.step_sheet.view import Fact
from splitpin.units import clock, number

if TYPE_CHECKING:
    from splitpin.records.diagnosis import Diagnosis, DiagnosisSuspect
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile


class CheckRow(NamedTuple):
    """One check as it is printed."""

    n: str
    first: str
    title: str
    caution: str
    check_time: str
    steps: tuple[str, ...]
    share: str
    share_width: str
    found: str
    not_found: str
    parts: str


class DiagnosisCard(NamedTuple):
    """Everything on the card, in the order in which it is printed."""

    firm: str
    phone: str | None
    reference: str
    title: str
    facts: tuple[Fact, ...]
    standing: str
    obstacles: tuple[Fact, ...]
    summary: tuple[str, ...]
    rows: tuple[CheckRow, ...]
    otherwise: str


def diagnosis_card(
    diagnosis: Diagnosis, job: JobFile, firm: FirmFile, *, paper: Paper = "A4", t: Words = ENGLISH
) -> str:
    """The card as one HTML text that loads nothing from anywhere; same input, same text."""
    return document([diagnosis_part(diagnosis, job, firm, t)], paper=paper, foot=diagnosis.job, t=t)


def diagnosis_part(diagnosis: Diagnosis, job: JobFile, firm: FirmFile, t: Words = ENGLISH) -> Part:
    """The card as part of a document."""
    title = f"{diagnosis.job} – {diagnosis.title}"
    return Part("office/diagnosis.html.j2", title, {"card": _card(diagnosis, job, firm, t)})


def _card(diagnosis: Diagnosis, job: JobFile, firm: FirmFile, t: Words) -> DiagnosisCard:
    facts = [
        Fact(label=t("Plant"), text=wording.sentence(diagnosis.assembly_title)),
        *(Fact(label=t("Reported"), text=text) for text in [diagnosis.report] if text),
        *(Fact(label=t("Symptom"), text=wording.sentence(symptom.title)) for symptom in diagnosis.symptoms),
        *(Fact(label=t("Site"), text="\n".join(site)) for site in [_site(job)] if site),
    ]
    return DiagnosisCard(
        firm=firm.firm.title,
        phone=firm.firm.phone,
        reference=diagnosis.job,
        title=diagnosis.title,
        facts=tuple(facts),
        standing=t(wording.STANDING),
        obstacles=tuple(Fact(label=n.message, text=n.hint) for n in diagnosis.notices if n.severity == "error"),
        summary=tuple(summary(diagnosis, t)) if diagnosis.suspects else (),
        rows=tuple(_row(diagnosis, row, t) for row in diagnosis.suspects),
        otherwise=t(diagnosis.otherwise),
    )


def _site(job: JobFile) -> list[str]:
    return [line for line in (job.site.name, job.site.address) if line]


def _row(diagnosis: Diagnosis, row: DiagnosisSuspect, t: Words) -> CheckRow:
    found, not_found = answers(diagnosis, row, t)
    parts = [f"{part.quantity} × {part.title}" for part in row.repair.parts if part.kind != "consumable"]
    return CheckRow(
        n=str(row.n),
        first=f"{'; '.join(row.check.opens)} ({clock(row.check.opening_s)})" if row.check.reach else "",
        title=wording.sentence(row.title),
        caution=live_caution(row, t) if row.check.live else "",
        check_time=clock(row.check.seconds),
        steps=row.check.steps,
        share=t.share(row.likelihood),
        share_width=number(round(row.likelihood * 100, 1)),
        found=wording.sentence(found),
        not_found=wording.sentence(not_found),
        parts=", ".join(parts),
    )
