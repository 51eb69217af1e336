"""Every document that an example job or round can give, made as the commands make it."""

import datetime
from dataclasses import dataclass, replace
from pathlib import Path

from tests import examples

from splitpin import planning
from splitpin.cli.office import prices_of
from splitpin.cli.pack import known_of
from splitpin.reading.round import read_round
from splitpin.records.actual import Actual, ActualPart, ActualReading, ActualStep, Finding, Photo, Signature
from splitpin.records.firm import FirmFile
from splitpin.records.library import Visit
from splitpin.records.plan import Plan
from splitpin.records.supply import RoundLoad
from splitpin.sheets.office.pack import pack
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.paper import Paper
from splitpin.sheets.register import REGISTER, Known, packed
from splitpin.supply.loading import load_round

JOBS = examples.FIRM / "jobs"
ROUND = examples.FIRM / "rounds" / "thursday-van-2.toml"
EMERGENCY = examples.FIRM / "reports" / "smell-of-gas.toml"
DAY = datetime.date(2026, 11, 25)
PIXEL = (  # a PNG of one grey point
    "data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGOYCQAAjACL6Y1KAgAAAABJRU5ErkJggg=="
)


@dataclass(frozen=True)
class Planned:
    """A job that is read and planned; planning takes longest, so it is done once for all languages."""

    path: Path
    job: planning.Planned

    @property
    def visit(self) -> Visit:
        return self.job.visit

    @property
    def plan(self) -> Plan:
        return self.job.plan


@dataclass(frozen=True)
class Loaded:
    """A round that is read and loaded."""

    load: RoundLoad
    firm: FirmFile


def planned(path: Path) -> Planned:
    """The job of a file, which must have no error that keeps it from being read."""
    return Planned(path, examples.job(path))


def loaded(path: Path) -> Loaded:
    """The round of a file, likewise."""
    done, notices = read_round(path)
    assert done is not None, notices
    prices, _ = prices_of(path, done.visits[0][1])
    return Loaded(load_round(done, prices), done.firm)


def example(path: Path) -> Planned | Loaded:
    """The job or the round of an example."""
    return loaded(path) if path.parent.name == "rounds" else planned(path)


def known(one: Planned | Loaded, text: str = "as found") -> Known:
    """What documents can tell of a job or of a round; `text` is what is written into each field of the visit."""
    if isinstance(one, Loaded):
        return Known(firm=one.firm, load=one.load)
    told = known_of(one.path, one.job, van=None, date=DAY, store=None)
    return replace(told, actual=as_done(one.plan, text)) if one.plan.steps else told


def pages(one: Planned | Loaded, t: Words = ENGLISH, *, paper: Paper = "A4", text: str = "as found") -> dict[str, str]:
    """Every registered document that a job or a round has, and the pack, by its name."""
    told = known(one, text)
    made = {entry.id: entry.page(told, t, paper=paper) for entry in REGISTER if t.language in entry.languages}
    found = {name: html for name, html in made.items() if html is not None}
    if told.plan and told.job and len(parts := packed(told, t)) > 1:
        found["pack"] = pack(parts, told.plan, told.job, told.firm, paper=paper, t=t)
    return found


def texts(one: Planned | Loaded, t: Words = ENGLISH) -> dict[str, str]:
    """What a terminal shows of every registered document that a job or a round has, where it speaks the language."""
    made = {
        entry.id: entry.told(known(one), t)
        for entry in REGISTER
        if entry.told is not None and t.language in entry.terminal_languages
    }
    return {name: text for name, text in made.items() if text is not None}


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
