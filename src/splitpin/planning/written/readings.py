"""The readings of a proof with their limits, and the calculations that go with them, as far as the job says the inputs.

By hand: a job says that 5 m of water stand above the vessel; its gas charge is then worked out as 5 / 10 + 0.3 = 0.8
bar. A job that says nothing gets a blank box for the height, with the formula beside it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from splitpin.calculations.answer import Answer, take
from splitpin.calculations.given import Problem
from splitpin.calculations.limits import NOT_SET, standing
from splitpin.calculations.reading import Input
from splitpin.calculations.reading import Reading as Calculation
from splitpin.calculations.register import READINGS
from splitpin.notices import Notice
from splitpin.planning.plant.plant import Plant
from splitpin.records.plan import PlanCalculation, PlanFigure, PlanInput, PlanReading

if TYPE_CHECKING:
    from splitpin.records.procedure import Proof, Reading


def readings(proof: Proof, plant: Plant) -> tuple[PlanReading, ...]:
    """The readings of a proof; where no limit holds, both bounds are None and the note says so. Never a guess."""
    return tuple(_reading(reading, plant) for reading in proof.reading)


def _reading(reading: Reading, plant: Plant) -> PlanReading:
    plain = PlanReading(id=reading.id, title=reading.title, unit=reading.unit)
    if reading.limit is None:
        return plain
    found = standing(reading.limit, plant.library.limits, _jurisdiction(plant), plant.visit.job.job.date)
    if found.row is None:
        return replace(plain, note=f"{NOT_SET} ({found.note})" if found.note else NOT_SET)
    return replace(plain, min=found.row.min, max=found.row.max, source=found.source, note=found.note or None)


def _jurisdiction(plant: Plant) -> str:
    return plant.visit.job.job.jurisdiction or plant.visit.firm.firm.jurisdiction


def missing(proof: Proof, found: tuple[PlanReading, ...]) -> tuple[Notice, ...]:
    """A notice for each proof some of whose readings have no limit where one belongs."""
    names = [reading.title for reading in found if reading.note and reading.note.startswith(NOT_SET)]
    if not names:
        return ()
    return (Notice("limit-not-set", f"{proof.title}: {NOT_SET} ({'; '.join(names)})", proof.place),)


def calculations(proof: Proof, plant: Plant) -> tuple[PlanCalculation, ...]:
    """The calculations of a proof's readings, each once; one that is made twice from other readings stands twice."""
    titles = {reading.id: reading.title for reading in proof.reading}
    rows: dict[tuple[object, ...], list[Reading]] = {}
    for reading in proof.reading:
        if reading.calculated is not None:
            rows.setdefault((reading.calculated, *sorted(reading.inputs.items())), []).append(reading)
    return tuple(
        _calculation(
            READINGS[calculated],
            plant,
            beside=tuple(reading.id for reading in group),
            boxed=all(reading.result is None for reading in group),
            taken={name: titles[other] for name, other in group[0].inputs.items()},
        )
        for group in rows.values()
        if (calculated := group[0].calculated) is not None
    )


def others(proofs: Iterable[Proof], plant: Plant) -> tuple[PlanCalculation, ...]:
    """What the job gives inputs for that no reading of these proofs makes use of, in the order of the job."""
    wanting = [reading for proof in proofs for reading in proof.reading if reading.calculated is not None]
    used = {(reading.calculated, name) for reading in wanting for name in _inputs(reading) - set(reading.inputs)}
    return tuple(
        _calculation(READINGS[name], plant, beside=(), boxed=True, taken={})
        for name, said in plant.visit.job.readings.items()
        if not any((name, key) in used for key in said.typed)
    )


def _inputs(reading: Reading) -> set[str]:
    return {one.name for one in READINGS[reading.calculated].inputs} if reading.calculated is not None else set()


def _calculation(
    reading: Calculation, plant: Plant, *, beside: tuple[str, ...], boxed: bool, taken: Mapping[str, str]
) -> PlanCalculation:
    job = plant.visit.job
    said = job.readings.get(reading.name)
    pairs = {} if said is None else {name: text for name, text in said.typed.items() if name not in taken}
    answer: Answer | tuple[Problem, ...] | None = None
    if all(one.name in pairs or (one.default is not None and one.name not in taken) for one in reading.inputs):
        typed = [f"{name}={text}" for name, text in pairs.items()]
        answer = take(reading, typed, plant.library.limits, _jurisdiction(plant), job.job.date)
    # A default of 0 means that there is no such thing, say no pipe of that size: a box until the rest is known, then
    # nothing at all.
    shown = [one for one in reading.inputs if answer is None or one.default != "0" or one.name in pairs]
    inputs = tuple(_input(one, pairs, taken) for one in shown)
    return PlanCalculation(
        name=reading.name,
        title=reading.title,
        readings=beside,
        inputs=inputs,
        figures=_figures(reading, answer, bool(beside)) if boxed or isinstance(answer, Answer) else (),
        outside="; ".join(problem.message for problem in answer) if isinstance(answer, tuple) else None,
        formula=reading.formula,
        source=reading.source,
        note=reading.note or None,
    )


def _input(one: Input, pairs: Mapping[str, str], taken: Mapping[str, str]) -> PlanInput:
    default = one.default if one.default != "0" else None
    return PlanInput(
        name=one.name,
        title=one.title,
        unit=one.unit if not one.unit.startswith("(") else "",
        allowed=one.allowed,
        value=None if one.name in taken else pairs.get(one.name, default),
        by_default=one.name not in pairs and one.name not in taken and default is not None,
        reading=taken.get(one.name),
    )


def _figures(reading: Calculation, answer: object, beside: bool) -> tuple[PlanFigure, ...]:
    """The results; that a limit is not set is left to the reading beside which they stand."""
    if not isinstance(answer, Answer):
        return tuple(PlanFigure(title=result.title, unit=result.unit) for result in reading.results)
    figures = []
    for line in answer.lines:
        unit = line.result.unit if isinstance(line.value, Fraction) else ""
        figure = PlanFigure(title=line.result.title, unit=unit, value=line.figure)
        verdict = line.verdict
        if verdict is not None and not (beside and verdict.text == NOT_SET):
            figure = replace(figure, limit=verdict.text, limit_source=verdict.source or None, passes=verdict.passes)
        figures.append(figure)
    return tuple(figures)
