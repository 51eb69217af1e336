"""`splitpin time`."""

from dataclasses import fields
from pathlib import Path
from typing import Any

from splitpin.cli.planned import leave, planned
from splitpin.cli.saying import answer, answer_json, usage
from splitpin.timing.report import TimeReport, time_report


def run(job: Path, *, at: float, while_there: bool, as_json: bool, seconds: float | None) -> None:
    """Print how long the visit takes and how sure that is, where the time goes, and what would change it."""
    if not 0 < at < 100:
        raise usage(f"--at is a share of 100 visits: above 0 and below 100, not {at:g}")
    visit, plan = planned(job, seconds)
    if plan.steps:
        report = time_report(plan, visit, at=at, while_there=while_there)
        if as_json:
            answer_json(_plain(report))
        else:
            from splitpin.sheets.times_text import times_text

            answer(times_text(report))
    leave(plan)


def _plain(report: TimeReport) -> dict[str, Any]:
    """The report with every row as a table of names."""
    return {field.name: _value(getattr(report, field.name)) for field in fields(report)}


def _value(value: Any) -> Any:
    if hasattr(value, "_asdict"):
        return {name: _value(inner) for name, inner in value._asdict().items()}
    if isinstance(value, tuple):
        return [_value(inner) for inner in value]
    return value
