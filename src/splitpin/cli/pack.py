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
from splitpin.sheets.office.diagnosis import diagnosis_document
from splitpin.sheets.office.pack import pack
from splitpin.sheets.office.quote import quote_document
from splitpin.sheets.press.language import Words
from splitpin.sheets.press.page import part
from splitpin.sheets.press.paper import Part
from splitpin.sheets.step_sheet.sheet import step_part
from splitpin.sheets.stock.pick_list import pick_document
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
    parts = packed(job, found, van=van, date=date, t=t, store=store)
    write_document(out, pack(parts, plan, visit.job, visit.firm, paper=paper, t=t))
    if plan.stops:
        answer(f"{out}: stop page only, no work is planned")
    else:
        status = plan.status if plan.steps else "no plan"
        answer(f"{out}: {counted(len(parts), 'document')} ({', '.join(parts)}), {status}")
    leave(plan.status)


def packed(
    job: Path,
    found: Planned,
    *,
    van: Path | None,
    date: datetime.date | None,
    t: Words,
    store: Path | None,
) -> dict[str, Part]:
    """The documents of a pack by their English names, in the order in which they are wanted; one at least.

    A job that stops for an emergency has its stop page and nothing else.
    """
    visit, plan = found.visit, found.plan
    if plan.stops:
        return {"stop page": step_part(plan, visit.job, visit.firm, t)}
    parts: dict[str, Part] = {}
    if visit.job.job.symptoms:
        known = learnt(visit.assembly.symptom, past_visits(job, store), visit.assembly.assembly.id)
        diagnosis = diagnose(visit, counted=known.by_symptom, visits=known.visits)
        parts["diagnosis card"] = part(diagnosis_document(diagnosis, visit.job, visit.firm, t), t)
    if plan.steps or not parts:
        parts["step sheet"] = step_part(plan, visit.job, visit.firm, t)
    if plan.parts:
        parts["pick list"] = part(pick_document(picked(job, [found], van), visit.firm, t), t)
    if refusal(found) is None:
        parts["quote"] = part(quote_document(quoted(job, found, date=date, store=store), visit.firm, visit.job, t), t)
    return parts
