"""`splitpin diagnose`."""

from pathlib import Path

import typer

from splitpin.cli import exits
from splitpin.cli.budget import budget
from splitpin.cli.planned import as_notices, visit_of
from splitpin.cli.saying import answer, say
from splitpin.faults.diagnose import diagnose


def run(job: Path, *, as_json: bool, seconds: float | None) -> None:
    """Print in which sequence to check the suspects of a job's symptoms, and what each answer leads to."""
    visit, notices = visit_of(job)
    with budget(seconds) as stop:
        diagnosis = diagnose(visit, stop=stop, said=notices)
    say(as_notices(diagnosis.notices))
    if as_json:
        answer(diagnosis.model_dump_json(indent=2))
    else:
        from splitpin.sheets.diagnosis_text import diagnosis_text

        answer(diagnosis_text(diagnosis))
    code = {"proved": exits.FINE, "impossible": exits.ERRORS, "bounded": exits.UNPROVED}[diagnosis.status]
    if code:
        raise typer.Exit(code)
