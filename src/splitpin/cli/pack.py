"""`splitpin pack`."""

import datetime
from pathlib import Path

from splitpin.cli.arguments import JobFile, Limit, QuoteDay, StoreFile, VanFile
from splitpin.cli.document import InLanguage, Out, PaperSize, write_document
from splitpin.cli.exits import leave
from splitpin.cli.office import past_visits
from splitpin.cli.picked import picked
from splitpin.cli.planned import planned
from splitpin.cli.quoted import quoted
from splitpin.cli.saying import answer
from splitpin.faults.diagnose import diagnose
from splitpin.faults.likelihood import learnt
from splitpin.planning import Planned
from splitpin.pricing import refusal
from splitpin.sheets.office.pack import pack
from splitpin.sheets.press.language import Words
from splitpin.sheets.register import Known, packed
from splitpin.units import counted


def run(
    job: JobFile,
    out: Out,
    van: VanFile = None,
    date: QuoteDay = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    store: StoreFile = None,
    seconds: Limit = None,
) -> None:
    """Write everything about a job as one document: diagnosis card, step sheet, pick list, quote."""
    t = Words(language)
    found = planned(job, seconds)
    visit, plan = found.visit, found.plan
    parts = packed(known_of(job, found, van=van, date=date, store=store), t)
    write_document(out, pack(parts, plan, visit.job, visit.firm, paper=paper, t=t))
    if plan.stops:
        answer(f"{out}: stop page only, no work is planned")
    else:
        status = plan.status if plan.steps else "no plan"
        answer(f"{out}: {counted(len(parts), 'document')} ({', '.join(parts)}), {status}")
    leave(plan.status)


def known_of(job: Path, found: Planned, *, van: Path | None, date: datetime.date | None, store: Path | None) -> Known:
    """What documents can tell of a job; of one that stops for an emergency its stop alone."""
    visit, plan = found.visit, found.plan
    if plan.stops:
        return Known(firm=visit.firm, job=visit.job, plan=plan)
    diagnosis = None
    if visit.job.job.symptoms:
        known = learnt(visit.assembly.symptom, past_visits(job, store), visit.assembly.assembly.id)
        diagnosis = diagnose(visit, counted=known.by_symptom, visits=known.visits)
    return Known(
        firm=visit.firm,
        job=visit.job,
        plan=plan,
        diagnosis=diagnosis,
        picks=picked(job, [found], van) if plan.parts else None,
        quote=quoted(job, found, date=date, store=store) if refusal(found) is None else None,
    )
