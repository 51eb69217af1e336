"""`splitpin report`."""

from pathlib import Path
from typing import cast

from splitpin.cli.document import checked, write_document
from splitpin.cli.planned import planned
from splitpin.cli.saying import answer, say, stop_on_errors
from splitpin.reading.actual import disagreements, read_actual
from splitpin.sheets import Paper
from splitpin.sheets.service_record import service_record


def run(job: Path, actual_path: Path, out: Path, *, paper: str) -> None:
    """Write the service record of a visit beside what its plan asked for."""
    checked(out, paper=paper)
    actual, notices = read_actual(actual_path)
    say(notices)
    stop_on_errors(notices)
    assert actual is not None  # a file without errors gives a visit
    visit, plan = planned(job, None)
    wrong = disagreements(actual, visit)
    say(wrong)
    stop_on_errors(wrong)
    write_document(out, service_record(actual, plan, visit.job, visit.firm, paper=cast(Paper, paper)))
    answer(f"{out}: visit of {actual.date}")
