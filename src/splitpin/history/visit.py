"""What is kept of a visit: what was planned, what it took, what was found, read and used."""

import datetime
from typing import NamedTuple

from splitpin.records.actual import Actual, ActualPart, ActualReading
from splitpin.records.job import JobFile
from splitpin.records.plan import Plan

Cause = tuple[str, str]  # component, task


class PastVisit(NamedTuple):
    """One visit. Seconds are hands-on; `planned_s` is what the taken time is held against when the pace is learnt."""

    job: str
    date: datetime.date
    assembly: str
    plant: str
    planned_s: float
    taken_s: float
    waiting_s: float | None
    phases: dict[str, tuple[float, float]]  # planned and taken
    tasks: tuple[Cause, ...]
    symptoms: tuple[str, ...]
    found: tuple[Cause, ...]
    readings: tuple[ActualReading, ...]
    parts: tuple[ActualPart, ...]
    notes: str | None
    splitpin: str


def past_visit(actual: Actual, job: JobFile, plan: Plan, planned_s: float, tasks: tuple[Cause, ...]) -> PastVisit:
    """The visit `actual` beside its `plan`, whose hands-on time is `planned_s` on this site.

    A visit that names only its phases took their sum, and is held against the same phases' share of the plan: a phase
    that was not timed is no phase that took no time.
    """
    seconds = {phase: minutes * 60 for phase, minutes in actual.phases.items()}
    planned = {phase: sum(step.seconds for step in plan.steps if step.phase == phase) for phase in seconds}
    taken = sum(seconds.values()) if actual.total_min is None else actual.total_min * 60
    whole = sum(step.seconds for step in plan.steps)
    if actual.total_min is None and whole > 0:
        planned_s *= sum(planned.values()) / whole
    return PastVisit(
        job=actual.job,
        date=actual.date,
        assembly=actual.assembly,
        plant=job.job.plant,
        planned_s=planned_s,
        taken_s=taken,
        waiting_s=None if actual.waiting_min is None else actual.waiting_min * 60,
        phases={phase: (planned[phase], taken_) for phase, taken_ in seconds.items()},
        tasks=tasks,
        symptoms=job.job.symptoms,
        found=tuple((found.component, found.task) for found in actual.found),
        readings=actual.readings,
        parts=actual.parts,
        notes=actual.notes,
        splitpin=plan.splitpin,
    )
