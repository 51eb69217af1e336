"""A job read and planned for the commands that need a plan."""

from pathlib import Path

import typer

from splitpin.cli import exits
from splitpin.cli.budget import budget
from splitpin.cli.saying import say, stop_on_errors
from splitpin.hardware import unreadable
from splitpin.notices import Notice, Place, in_order
from splitpin.planning import plan_visit
from splitpin.reading import read_visit
from splitpin.records.library import Visit
from splitpin.records.plan import Plan


def planned(job: Path, seconds: float | None) -> tuple[Visit, Plan]:
    """The visit and its plan; notices are said, and errors in the files end the command."""
    visit, notices = read_visit(job)
    if visit is None:
        say(notices)
        stop_on_errors(notices)
        raise AssertionError("a job without errors gives a visit")
    wrong = unreadable(visit.assembly, visit.library)
    if wrong:
        say(in_order((*notices, *wrong)))
        stop_on_errors(wrong)
    with budget(seconds) as stop:
        plan = plan_visit(visit, stop=stop, said=notices)
    say(of_plan(plan))
    return visit, plan


def of_plan(plan: Plan) -> tuple[Notice, ...]:
    """The plan's notices as notices again."""
    return in_order(
        Notice(row.code, row.message, Place(row.path, row.line, row.column), row.hint) for row in plan.notices
    )


def leave(plan: Plan) -> None:
    """End the command with the exit code that the plan's status calls for."""
    code = {"proved": exits.FINE, "impossible": exits.ERRORS, "bounded": exits.UNPROVED}[plan.status]
    if code:
        raise typer.Exit(code)
