"""`splitpin time`."""

from typing import Annotated

import typer

from splitpin.cli.arguments import AsJson, JobFile, Limit, StoreFile
from splitpin.cli.budget import budget
from splitpin.cli.exits import leave
from splitpin.cli.office import past_visits
from splitpin.cli.planned import planned_until
from splitpin.cli.saying import answer, answer_json, say, usage
from splitpin.notices import Notice
from splitpin.sheets.office.times_text import times_text
from splitpin.timing.learning import learnt_pace
from splitpin.timing.practice import USUAL_RATE
from splitpin.timing.report import time_report


def run(
    job: JobFile,
    at: Annotated[float, typer.Option("--at", help="Book so that this many of 100 visits end in time.")] = 80.0,
    while_there: Annotated[
        bool, typer.Option("--while-there", help="Plan every other task of the plant too: what it would add.")
    ] = False,
    units: Annotated[
        int | None, typer.Option("--units", min=1, max=10_000, help="The job on this many like units.")
    ] = None,
    rate: Annotated[
        float | None, typer.Option("--rate", help="Time of a unit at every doubling, in per cent. Default: 90.")
    ] = None,
    store: StoreFile = None,
    as_json: AsJson = False,
    seconds: Limit = None,
) -> None:
    """Tell how long a job takes and how sure that is, where the time goes, and what would change it."""
    if not 0 < at < 100:
        raise usage(f"--at is a share of 100 visits: above 0 and below 100, not {at:g}")
    if rate is not None and units is None:
        raise usage("--rate is for like units: say how many with --units")
    if rate is not None and not 50 <= rate <= 100:
        raise usage(f"--rate is in per cent of the time of a unit at every doubling: 50 to 100, not {rate:g}")
    learning = None if units is None else (units, USUAL_RATE if rate is None else rate / 100)
    with budget(seconds) as stop:
        found = planned_until(job, stop)
        pace = learnt_pace(found.visit, past_visits(job, store)) if found.plan.steps else None
        report = (
            time_report(found, at=at, pace=pace, while_there=while_there, units=learning, stop=stop)
            if found.plan.steps
            else None
        )
        if report is not None and stop():
            message = "stopped at the limit: not every other task or change was planned, or not to the end"
            say([Notice("not-proved", message, found.visit.place)])
    if report is not None:
        answer_json(report) if as_json else answer(times_text(report))
    leave(found.plan.status)
