"""`splitpin sheet`."""

from pathlib import Path
from typing import cast

from splitpin.cli.document import checked, write_document
from splitpin.cli.planned import leave, planned
from splitpin.cli.saying import answer, usage
from splitpin.sheets.language import Words
from splitpin.sheets.paper import Paper, step_sheet


def run(job: Path, out: Path, *, paper: str, pocket: bool, language: str, seconds: float | None) -> None:
    """Write the step sheet or the pocket sheet of a job and say where it is."""
    checked(out, paper=paper, language=language)
    if pocket and out.suffix.lower() == ".pdf":
        raise usage("--pocket makes a page for the phone: name a file that ends in .html")
    found = planned(job, seconds)
    visit, plan = found.visit, found.plan
    t = Words(language)
    if pocket and not plan.stops:
        from splitpin.sheets.pocket import pocket_sheet

        html = pocket_sheet(plan, visit.job, visit.firm, t)
    else:
        html = step_sheet(plan, visit.job, visit.firm, paper=cast(Paper, paper), t=t)
    write_document(out, html)
    answer(f"{out}: " + ("stop page, no plan" if plan.stops else f"{len(plan.steps)} steps, {plan.status}"))
    leave(plan)
