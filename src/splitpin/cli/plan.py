"""`splitpin plan`."""

from pathlib import Path

from splitpin.cli.planned import leave, planned
from splitpin.cli.saying import answer
from splitpin.records.plan import Plan, plan_json


def run(job: Path, *, as_json: bool, why: bool, seconds: float | None) -> None:
    """Print the plan of a job as text for 80 columns or as JSON."""
    plan = planned(job, seconds).plan
    print_plan(plan, as_json=as_json, why=why)
    leave(plan)


def print_plan(plan: Plan, *, as_json: bool, why: bool) -> None:
    """A plan to stdout."""
    if as_json:
        answer(plan_json(plan))
    else:
        from splitpin.sheets.terminal import plan_text

        answer(plan_text(plan, why=why))
