"""`splitpin time`."""

from pathlib import Path

from splitpin.cli.learning import learnt_pace
from splitpin.cli.planned import leave, planned
from splitpin.cli.saying import answer, answer_json, usage
from splitpin.timing.practice import USUAL_RATE
from splitpin.timing.report import time_report


def run(
    job: Path,
    *,
    at: float,
    while_there: bool,
    units: int | None,
    rate: float | None,
    store: Path | None,
    as_json: bool,
    seconds: float | None,
) -> None:
    """Print how long the visit takes and how sure that is, where the time goes, and what would change it."""
    if not 0 < at < 100:
        raise usage(f"--at is a share of 100 visits: above 0 and below 100, not {at:g}")
    if rate is not None and units is None:
        raise usage("--rate is for like units: say how many with --units")
    if rate is not None and not 50 <= rate <= 100:
        raise usage(f"--rate is in per cent of the time of a unit at every doubling: 50 to 100, not {rate:g}")
    learning = None if units is None else (units, USUAL_RATE if rate is None else rate / 100)
    found = planned(job, seconds)
    if found.plan.steps:
        report = time_report(
            found, at=at, pace=learnt_pace(job, found.visit, store), while_there=while_there, units=learning
        )
        if as_json:
            from splitpin.cli.plain import plain

            answer_json(plain(report))
        else:
            from splitpin.sheets.times_text import times_text

            answer(times_text(report))
    leave(found.plan)
