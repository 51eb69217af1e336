"""A job read and planned for the commands that need a plan."""

from collections.abc import Callable, Iterable
from pathlib import Path

from splitpin.cli.budget import budget
from splitpin.cli.saying import answer, say, stop_on_errors
from splitpin.notices import Notice, Place, in_order
from splitpin.planning import Planned, plan_visit
from splitpin.reading.visit import read_visit
from splitpin.records.library import Visit
from splitpin.records.plan import Plan, PlanNotice, plan_json


def visit_of(job: Path) -> tuple[Visit, tuple[Notice, ...]]:
    """The visit of a job file and what reading had to say; errors in the files are said and end the command."""
    visit, notices = read_visit(job)
    if visit is None:
        say(notices)
        stop_on_errors(notices)
        raise AssertionError("a job without errors gives a visit")
    return visit, notices


def planned(job: Path, seconds: float | None = None) -> Planned:
    """The job planned; notices are said, and errors in the files end the command."""
    with budget(seconds) as stop:
        return planned_until(job, stop)


def planned_until(job: Path, stop: Callable[[], bool]) -> Planned:
    """The job planned in a budget that the whole command shares."""
    visit, notices = visit_of(job)
    found = plan_visit(visit, stop=stop, said=notices)
    say(as_notices(found.plan.notices))
    return found


def as_notices(rows: Iterable[PlanNotice]) -> tuple[Notice, ...]:
    """The notices of a plan, a diagnosis and so on as notices again."""
    return in_order(Notice(row.code, row.message, Place(row.path, row.line, row.column), row.hint) for row in rows)


def print_plan(plan: Plan, *, as_json: bool, why: bool = False) -> None:
    """A plan to stdout, as JSON or as text for 80 columns."""
    if as_json:
        answer(plan_json(plan))
    else:
        from splitpin.sheets.step_sheet.terminal import plan_text  # JSON does without it

        answer(plan_text(plan, why=why))
