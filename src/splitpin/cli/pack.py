"""`splitpin pack`."""

import datetime
from pathlib import Path
from typing import cast

from splitpin.cli.document import checked, write_document
from splitpin.cli.planned import leave, planned
from splitpin.cli.saying import answer
from splitpin.sheets import Paper
from splitpin.sheets.language import Words
from splitpin.sheets.paper import Part, document, step_part
from splitpin.units import counted


def run(
    job: Path,
    out: Path,
    *,
    date: datetime.date | None,
    paper: str,
    language: str,
    store: Path | None,
    seconds: float | None,
) -> None:
    """Write the documents of a job as one: what its symptoms and its firm's charges give."""
    checked(out, paper=paper, language=language)
    t = Words(language)
    visit, plan = planned(job, seconds)
    parts: list[Part] = []
    if visit.job.job.symptoms and not plan.stops:
        from splitpin.cli.stored import past_visits
        from splitpin.faults.diagnose import diagnose
        from splitpin.faults.likelihood import learnt
        from splitpin.sheets.diagnosis_card import diagnosis_part

        known = learnt(visit.assembly.symptom, past_visits(job, store), visit.assembly.assembly.id)
        found = diagnose(visit, counted=known.by_symptom, visits=known.visits)
        parts.append(diagnosis_part(found, visit.job, visit.firm, t))
    if plan.steps or not parts:
        parts.append(step_part(plan, visit.job, visit.firm, t))
    if plan.steps and not plan.refused and visit.firm.charges is not None:
        from splitpin.cli.quote import quoted
        from splitpin.sheets.quote_page import quote_part

        quote = quoted(job, visit, plan, at=None, date=date, valid_until=None, store=store)
        parts.append(quote_part(quote, visit.firm, visit.job, t))
    write_document(out, document(parts, paper=cast(Paper, paper), foot=plan.job, t=t))
    answer(f"{out}: {counted(len(parts), 'document')}, {plan.status}")
    leave(plan)
