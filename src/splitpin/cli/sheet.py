"""`splitpin sheet`."""

import os
import tempfile
from pathlib import Path
from typing import cast

from splitpin.cli.planned import leave, planned
from splitpin.cli.saying import answer, usage
from splitpin.sheets import Paper, step_sheet

PAPERS = ("A4", "Letter")


def run(job: Path, out: Path, *, paper: str, seconds: float | None) -> None:
    """Write the step sheet of a job and say where it is."""
    if paper not in PAPERS:
        raise usage(f"--paper is {paper}; it may be {' or '.join(PAPERS)}")
    if not out.parent.is_dir():
        raise usage(f"--out: there is no folder {out.parent}")
    visit, plan = planned(job, seconds)
    write_whole(out, step_sheet(plan, visit.job, visit.firm, paper=cast(Paper, paper)))
    answer(f"{out}: {len(plan.steps)} steps, {plan.status}")
    leave(plan)


def write_whole(out: Path, text: str) -> None:
    """The file is there whole or not at all: written beside its place, then moved there."""
    handle, beside = tempfile.mkstemp(dir=out.parent, prefix=f".{out.name}.")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        os.chmod(beside, 0o644)
        os.replace(beside, out)
    except BaseException:
        os.unlink(beside)
        raise
