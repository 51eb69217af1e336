"""A visit to fill a store with."""

import datetime
from typing import Any

from splitpin.history import PastVisit
from splitpin.records.actual import ActualPart, ActualReading


def visit(job: str = "J-1", **changed: Any) -> PastVisit:
    plain = PastVisit(
        job=job,
        date=datetime.date(2026, 3, 1),
        assembly="circulator-set",
        plant="clean",
        planned_s=3600.0,
        taken_s=4000.5,
        waiting_s=None,
        phases={"strip": (600.0, 720.25)},
        tasks=(("motor-head", "replace"),),
        symptoms=("no-circulation",),
        found=(("motor-head", "replace"),),
        readings=(ActualReading(proof="p", reading="r", value=0.004, unit="ratio", result="pass"),),
        parts=(ActualPart(part="circulator-head", quantity=1),),
        notes='=1+1 "quoted", é',
        splitpin="0.1.0",
    )
    return plain._replace(**changed)
