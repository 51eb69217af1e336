"""A job read and planned for the commands that need a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin.cli import exits
from splitpin.cli.budget import budget
from splitpin.cli.saying import say, stop_on_errors
from splitpin.notices import Notice, Place, in_order
from splitpin.planning import Planned, plan_visit, stops_for_emergency

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from splitpin.records.library import Visit
    from splitpin.records.plan import Plan, PlanNotice


def visit_of(job: Path) -> tuple[Visit, tuple[Notice, ...]]:
    """The visit of a job file and what reading had to say; errors in the files are said and end the command."""
    from splitpin.calculations.misused import misused_by_job, misused_by_proofs
    from splitpin.hardware.unreadable import unreadable
    from splitpin.reading.visit import read_visit

    visit, notices = read_visit(job)
    if visit is None:
        say(notices)
        stop_on_errors(notices)
        raise AssertionError("a job without errors gives a visit")
    misused = (*misused_by_job(visit.job), *misused_by_proofs(visit.library))
    wrong = [*unreadable(visit.assembly, visit.library), *(one for one in misused if one.severity == "error")]
    if wrong:
        say(in_order((*notices, *wrong)))
        stop_on_errors(wrong)
    return visit, (*notices, *misused)


def planned(job: Path, seconds: float | None) -> Planned:
    """The job planned; notices are said, and errors in the files end the command."""
    visit, notices = visit_of(job)
    with budget(seconds) as stop:
        found = plan_visit(visit, stop=stop, said=notices)
    say(as_notices(found.plan.notices))
    return found


def stopped(visit: Visit, said: tuple[Notice, ...]) -> Plan | None:
    """The plan that is none, where the job speaks of an emergency; nothing is searched for."""
    return plan_visit(visit, said=said).plan if stops_for_emergency(visit) else None


def as_notices(rows: Iterable[PlanNotice]) -> tuple[Notice, ...]:
    """The notices of a plan, a diagnosis and so on as notices again."""
    return in_order(Notice(row.code, row.message, Place(row.path, row.line, row.column), row.hint) for row in rows)


def leave(plan: Plan) -> None:
    """End the command with the exit code that the plan's status calls for."""
    code = {"proved": exits.FINE, "impossible": exits.ERRORS, "bounded": exits.UNPROVED}[plan.status]
    if code:
        raise SystemExit(code)
