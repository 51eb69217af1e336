"""The step sheet as a page, or the stop page where an emergency takes its place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin.records.plan import Plan
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.paper import Paper, Part, document
from splitpin.sheets.step_sheet.view import view
from splitpin.sheets.stop_page.stop import stop_view

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile


def step_sheet(plan: Plan, job: JobFile, firm: FirmFile, *, paper: Paper = "A4", t: Words = ENGLISH) -> str:
    """The step sheet of `plan` as one HTML text that loads nothing from anywhere; same input, same text.

    `job` and `firm` are those that the plan was made from. An impossible plan gives a sheet that says so and why; one
    that stops for an emergency gives the stop page. Raises ValueError for a paper size that is neither A4 nor Letter.
    """
    return document([step_part(plan, job, firm, t)], paper=paper, foot=plan.job, t=t)


def step_part(plan: Plan, job: JobFile, firm: FirmFile, t: Words = ENGLISH) -> Part:
    """The step sheet as part of a document."""
    if plan.stops:
        page = stop_view(plan, job, firm, t)
        return Part("stop_page/stop-page.html.j2", f"{page.heading} – {plan.job}", {"page": page})
    return Part("step_sheet/step-sheet.html.j2", f"{plan.job} – {plan.title}", {"sheet": view(plan, job, firm, t)})
