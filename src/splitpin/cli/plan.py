"""`splitpin plan`."""

from typing import Annotated

import typer

from splitpin.cli.arguments import AsJson, JobFile, Limit
from splitpin.cli.exits import leave
from splitpin.cli.planned import planned, print_plan


def run(
    job: JobFile,
    as_json: AsJson = False,
    why: Annotated[bool, typer.Option("--why", help="Say why each step is there.")] = False,
    seconds: Limit = None,
) -> None:
    """Plan a job: the steps, what they need, and how the plan was proved."""
    plan = planned(job, seconds).plan
    print_plan(plan, as_json=as_json, why=why)
    leave(plan.status)
