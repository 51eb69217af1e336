"""Every document that an example job can give, made as the commands make it."""

import datetime
from dataclasses import dataclass
from pathlib import Path

from splitpin.cli.quote import quoted
from splitpin.faults.diagnose import diagnose
from splitpin.planning import plan_visit
from splitpin.reading import read_visit
from splitpin.records.actual import Actual, ActualPart, ActualReading, ActualStep, Finding, Photo, Signature
from splitpin.records.library import Visit
from splitpin.records.plan import Plan
from splitpin.sheets import Paper, step_sheet
from splitpin.sheets.diagnosis_card import diagnosis_part
from splitpin.sheets.language import ENGLISH, Words
from splitpin.sheets.paper import Part, document, step_part
from splitpin.sheets.pocket import pocket_sheet
from splitpin.sheets.quote_page import quote_part
from splitpin.sheets.service_record import service_record

JOBS = Path(__file__).resolve().parents[2] / "examples" / "skerrowdale" / "jobs"
EMERGENCY = JOBS.parent / "reports" / "smell-of-gas.toml"
DAY = datetime.date(2026, 11, 25)
PIXEL = (  # a PNG of one grey point
    "data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGOYCQAAjACL6Y1KAgAAAABJRU5ErkJggg=="
)


@dataclass(frozen=True)
class Planned:
    """A job that is read and planned; planning takes longest, so it is done once for all languages."""

    path: Path
    visit: Visit
    plan: Plan


def planned(path: Path) -> Planned:
    """The job of a file, which must have no error that keeps it from being read."""
    visit, notices = read_visit(path)
    assert visit is not None, notices
    return Planned(path, visit, plan_visit(visit))


def pages(job: Planned, t: Words = ENGLISH, *, paper: Paper = "A4", text: str = "as found") -> dict[str, str]:
    """Every document of the job by its name; `text` is what is written into each field of the visit."""
    visit, plan = job.visit, job.plan
    made = {"step sheet": step_sheet(plan, visit.job, visit.firm, paper=paper, t=t)}
    if plan.stops:
        return {"stop page": made["step sheet"]}
    parts: list[tuple[str, Part]] = []
    if visit.job.job.symptoms:
        parts.append(("diagnosis", diagnosis_part(diagnose(visit), visit.job, visit.firm, t)))
    if plan.steps:
        parts.append(("step sheet", step_part(plan, visit.job, visit.firm, t)))
        made["pocket sheet"] = pocket_sheet(plan, visit.job, visit.firm, t)
        made["service record"] = service_record(as_done(plan, text), plan, visit.job, visit.firm, paper=paper, t=t)
    if plan.steps and not plan.refused:
        quote = quoted(job.path, visit, plan, at=None, date=DAY, valid_until=None, store=None)
        parts.append(("quote", quote_part(quote, visit.firm, visit.job, t)))
    for name, part in parts:
        made[name] = document([part], paper=paper, foot=plan.job, t=t)
    if len(parts) > 1:
        made["pack"] = document([part for _, part in parts], paper=paper, foot=plan.job, t=t)
    return made


def as_done(plan: Plan, text: str) -> Actual:
    """A visit in which the last step is left open, every reading but one is taken, and every part is used."""
    readings = [(proof.id, reading) for proof in plan.proofs for reading in proof.readings]
    results = ("pass", "fail", "no-limit")
    return Actual(
        format=1,
        job=plan.job,
        assembly=plan.assembly,
        date=DAY,
        phases={"strip": 12.5, "work": 30.0, "prove": 20.0},
        waiting_min=7.0,
        steps=tuple(ActualStep(n=step.n, done=step is not plan.steps[-1], note=text) for step in plan.steps[-3:]),
        readings=(
            *(
                ActualReading(proof=proof, reading=row.id, value=1.25, unit=row.unit, result=results[at % 3])
                for at, (proof, row) in enumerate(readings[1:])
            ),
            ActualReading(proof="another", reading="odd-one", value=1.0, unit="yes/no", result="pass"),
        ),
        parts=(*(ActualPart(part=part.part, quantity=2) for part in plan.parts), ActualPart(part="spare", quantity=1)),
        found=(Finding(component="motor-head", task="replace"),),
        notes=text,
        photos=(Photo(name=text, data=PIXEL),),
        signatures=(Signature(role="engineer", name=text), Signature(role=text, name=text)),
    )
