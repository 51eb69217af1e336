"""`splitpin sheet`."""

from typing import Annotated

import typer

from splitpin.cli.arguments import JobFile, Limit
from splitpin.cli.document import InLanguage, Out, PaperSize, write_document
from splitpin.cli.exits import leave
from splitpin.cli.planned import planned
from splitpin.cli.saying import answer, usage
from splitpin.sheets.pocket_sheet.pocket import pocket_sheet
from splitpin.sheets.press.language import Words
from splitpin.sheets.step_sheet.sheet import step_sheet


def run(
    job: JobFile,
    out: Out,
    paper: PaperSize = "A4",
    pocket: Annotated[bool, typer.Option("--pocket", help="The sheet for a phone: tick, time, take readings.")] = False,
    language: InLanguage = "en",
    seconds: Limit = None,
) -> None:
    """Write the step sheet of a job: one file, ready to print."""
    if pocket and out.suffix.lower() == ".pdf":
        raise usage("--pocket makes a page for the phone: name a file that ends in .html")
    found = planned(job, seconds)
    visit, plan = found.visit, found.plan
    t = Words(language)
    if pocket and not plan.stops:
        html = pocket_sheet(plan, visit.job, visit.firm, t)
    else:
        html = step_sheet(plan, visit.job, visit.firm, paper=paper, t=t)
    write_document(out, html)
    answer(f"{out}: " + ("stop page, no plan" if plan.stops else f"{len(plan.steps)} steps, {plan.status}"))
    leave(plan.status)
