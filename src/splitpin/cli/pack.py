"""`splitpin pack`."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import TYPE_CHECKING, cast

from splitpin.cli.document import checked, write_document
from splitpin.cli.pick import picked
from splitpin.cli.planned import leave, planned
from splitpin.cli.saying import answer
from splitpin.sheets.language import Words
from splitpin.sheets.pack import pack
from splitpin.sheets.paper import Paper, Part, step_part
from splitpin.units import counted

if TYPE_CHECKING:
    from splitpin.planning import Planned


def run(
    job: Path,
    out: Path,
    *,
    van: Path | None,
    date: datetime.date | None,
    paper: str,
    language: str,
    store: Path | None,
    seconds: float | None,
) -> None:
    """Write the documents of a job as one: what its symptoms, its parts and its firm's charges give."""
    checked(out, paper=paper, language=language)
    t = Words(language)
    found = planned(job, seconds)
    visit, plan = found.visit, found.plan
    parts = packed(job, found, van=van, date=date, t=t, store=store)
    write_document(out, pack(parts, plan, visit.job, visit.firm, paper=cast(Paper, paper), t=t))
    if plan.stops:
        answer(f"{out}: stop page only, no work is planned")
    else:
        status = plan.status if plan.steps else "no plan"
        answer(f"{out}: {counted(len(parts), 'document')} ({', '.join(parts)}), {status}")
    leave(plan)


def packed(
    job: Path,
    planned: Planned,
    *,
    van: Path | None,
    date: datetime.date | None,
    t: Words,
    store: Path | None,
) -> dict[str, Part]:
    """The documents of a pack by their English names, in the order in which they are wanted; one at least.

    A job that stops for an emergency has its stop page and nothing else.
    """
    visit, plan = planned.visit, planned.plan
    if plan.stops:
        return {"stop page": step_part(plan, visit.job, visit.firm, t)}
    parts: dict[str, Part] = {}
    if visit.job.job.symptoms:
        from splitpin.cli.office import past_visits
        from splitpin.faults.diagnose import diagnose
        from splitpin.faults.likelihood import learnt
        from splitpin.sheets.diagnosis_card import diagnosis_part

        known = learnt(visit.assembly.symptom, past_visits(job, store), visit.assembly.assembly.id)
        diagnosis = diagnose(visit, counted=known.by_symptom, visits=known.visits)
        parts["diagnosis card"] = diagnosis_part(diagnosis, visit.job, visit.firm, t)
    if plan.steps or not parts:
        parts["step sheet"] = step_part(plan, visit.job, visit.firm, t)
    if plan.parts:
        from splitpin.sheets.pick_page import pick_part

        parts["pick list"] = pick_part(picked(job, [planned], van), visit.firm, t)
    if plan.steps and not plan.refused and visit.firm.charges is not None:
        from splitpin.cli.quote import quoted
        from splitpin.sheets.quote_page import quote_part

        quote = quoted(job, planned, at=None, date=date, valid_until=None, store=store)
        parts["quote"] = quote_part(quote, visit.firm, visit.job, t)
    return parts
