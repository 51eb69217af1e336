"""Readings of proofs and of jobs that nothing can calculate, or that no limit can be held against."""

from collections.abc import Iterator

from splitpin.calculations.given import Problem, read_given
from splitpin.calculations.reading import OutsideMethod
from splitpin.calculations.register import READINGS
from splitpin.notices import Notice, Place
from splitpin.notices.nearest import among
from splitpin.records.job import JobFile
from splitpin.records.library import Library
from splitpin.records.procedure import Limit, Proof, Reading


def misused_by_job(job: JobFile) -> Iterator[Notice]:
    """`bad-reading` for what the job's `[readings]` cannot say, `outside-method` where a method does not reach.

    Inputs that are left out are no fault: the sheet has a box for each. Cost grows with the inputs.
    """
    for name, said in job.readings.items():
        if name not in READINGS:
            yield _unknown(name, f"[readings] names `{name}`", said.place)
            continue
        given, problems = read_given(READINGS[name], [f"{key}={text}" for key, text in said.typed.items()])
        missing = {problem.input for problem in problems} - set(said.typed)
        for problem in problems:
            if problem.input not in missing or problem.input is None:
                yield _bad(name, problem, said.place)
        if not problems:
            try:
                READINGS[name].compute(**{one.input.name: one.value for one in given})
            except OutsideMethod as end:
                yield Notice("outside-method", f"{name}: {end.message}", said.place, end.hint)


def misused_by_proofs(library: Library) -> Iterator[Notice]:
    """`bad-reading` for each reading of a proof whose `calculated`, `result` or `inputs` nothing answers.

    `limit-unit` for each row of its limit in another unit, whose bounds would be printed in the unit of the reading.
    """
    for proof in library.proofs.values():
        for reading in proof.reading:
            yield from _wrong(proof, reading)
            for file in library.limits.values() if reading.limit is not None else ():
                for row in file.limit:
                    if row.id == reading.limit and row.unit != reading.unit:
                        yield _other_unit(proof, reading, row)


def _wrong(proof: Proof, reading: Reading) -> Iterator[Notice]:
    where, name = f"reading {reading.id} of proof {proof.id}", reading.calculated
    if name is None:
        if reading.result is not None or reading.inputs:
            hint = "name the calculation with `calculated`"
            yield Notice("bad-reading", f"{where}: nothing says what it is calculated by", reading.place, hint)
        return
    if name not in READINGS:
        yield _unknown(name, f"{where}: `calculated` names `{name}`", reading.place)
        return
    results = {result.name: result for result in READINGS[name].results}
    if reading.result is not None and reading.result not in results:
        hint = among(reading.result, results)
        yield Notice("bad-reading", f"{where}: {name} has no result `{reading.result}`", reading.place, hint)
    elif reading.result is not None and results[reading.result].unit != reading.unit:
        message = f"{where} is in {reading.unit}, and {name} gives `{reading.result}` in {results[reading.result].unit}"
        yield Notice("limit-unit", message, reading.place)
    inputs = {one.name for one in READINGS[name].inputs}
    beside = {other.id for other in proof.reading if other is not reading}
    for key, other in reading.inputs.items():
        if key not in inputs:
            yield Notice("bad-reading", f"{where}: {name} has no input `{key}`", reading.place, among(key, inputs))
        if other not in beside:
            message = f"{where}: `{key}` is said to be the reading `{other}`, which this proof does not have beside it"
            yield Notice("bad-reading", message, reading.place, among(other, beside))


def _other_unit(proof: Proof, reading: Reading, row: Limit) -> Notice:
    message = f"the limit `{row.id}` is in {row.unit}, the reading {reading.id} of proof {proof.id} in {reading.unit}"
    return Notice("limit-unit", message, row.place, f"write both in one unit; the reading stands at {reading.place}")


def _unknown(name: str, said: str, place: Place) -> Notice:
    hint = among(name, READINGS) or "`splitpin reading` lists them"
    return Notice("bad-reading", f"{said}, but there is no calculated reading of that name", place, hint)


def _bad(name: str, problem: Problem, place: Place) -> Notice:
    message = problem.message if problem.message.startswith(name) else f"{name}: {problem.message}"
    return Notice("bad-reading", message, place, problem.hint)
