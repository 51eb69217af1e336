"""The limits of a proof's readings: from the job's jurisdiction, else the general set, valid on the job's date."""

import datetime

from splitpin.notices import Notice
from splitpin.planning.plant import Plant
from splitpin.readings.limits import NOT_SET
from splitpin.records.plan import PlanReading
from splitpin.records.procedure import Limit, Proof, Reading

GENERAL = "general"


def readings(proof: Proof, plant: Plant) -> tuple[PlanReading, ...]:
    """The readings of a proof; where no limit holds, both bounds are None and the note says so. Never a guess."""
    return tuple(_reading(reading, plant) for reading in proof.reading)


def _reading(reading: Reading, plant: Plant) -> PlanReading:
    limit = None if reading.limit is None else _limit(reading.limit, plant)
    if limit is None or (limit.min is None and limit.max is None):
        note = NOT_SET if reading.limit is not None else None
        if limit is not None and limit.note:
            note = f"{NOT_SET} ({limit.note})"
        return PlanReading(id=reading.id, title=reading.title, unit=reading.unit, note=note)
    source = ", ".join(part for part in (limit.origin, limit.edition) if part)
    return PlanReading(
        id=reading.id,
        title=reading.title,
        unit=reading.unit,
        min=limit.min,
        max=limit.max,
        source=source,
        note=limit.note,
    )


def _limit(name: str, plant: Plant) -> Limit | None:
    job, firm = plant.visit.job.job, plant.visit.firm.firm
    for jurisdiction in (job.jurisdiction or firm.jurisdiction, GENERAL):
        limits = plant.library.limits.get(jurisdiction)
        for limit in limits.limit if limits else ():
            if limit.id == name and _valid(limit, job.date):
                return limit
    return None


def _valid(limit: Limit, date: datetime.date | None) -> bool:
    """A limit with a first or last day holds only for a job with a date between them."""
    if limit.valid_from is None and limit.valid_until is None:
        return True
    if date is None:
        return False
    return (limit.valid_from or date) <= date <= (limit.valid_until or date)


def missing(proof: Proof, found: tuple[PlanReading, ...]) -> tuple[Notice, ...]:
    """A notice for each proof some of whose readings have no limit where one belongs."""
    names = [reading.title for reading in found if reading.note and reading.note.startswith(NOT_SET)]
    if not names:
        return ()
    return (Notice("limit-not-set", f"{proof.title}: {NOT_SET} ({'; '.join(names)})", proof.place),)
