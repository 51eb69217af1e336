"""A visit as it was, beside the plan of its job."""

from pathlib import Path

from splitpin.cli.planned import planned
from splitpin.cli.saying import say, stop_on_errors
from splitpin.planning import Planned
from splitpin.reading.actual import disagreements, read_actual
from splitpin.records.actual import Actual


def visited(job: Path, file: Path) -> tuple[Actual, Planned]:
    """What a file says of a visit, and what was planned; errors, and what cannot be of this job, end the command."""
    actual, notices = read_actual(file)
    say(notices)
    stop_on_errors(notices)
    assert actual is not None  # a file without errors gives a visit
    found = planned(job)
    wrong = disagreements(actual, found.visit)
    say(wrong)
    stop_on_errors(wrong)
    return actual, found
