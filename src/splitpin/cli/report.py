"""`splitpin report`."""

from pathlib import Path
from typing import cast

from splitpin.cli.document import checked, write_document
from splitpin.cli.planned import planned
from splitpin.cli.saying import answer, say, stop_on_errors
from splitpin.reading.actual import disagreements, read_actual
from splitpin.sheets.language import Words
from splitpin.sheets.paper import Paper
from splitpin.sheets.service_record import service_record


def run(job: Path, actual_path: Path, out: Path, *, paper: str, language: str) -> None:
    """Write the service record of a visit beside what its plan asked for."""
    checked(out, paper=paper, language=language)
    actual, notices = read_actual(actual_path)
    say(notices)
    stop_on_errors(notices)
    assert actual is not None  # a file without errors gives a visit
    found = planned(job, None)
    visit, plan = found.visit, found.plan
    wrong = disagreements(actual, visit)
    say(wrong)
    stop_on_errors(wrong)
    size, t = cast(Paper, paper), Words(language)
    write_document(out, service_record(actual, plan, visit.job, visit.firm, paper=size, t=t))
    answer(f"{out}: visit of {actual.date}")
