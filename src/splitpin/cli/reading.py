"""`splitpin reading`."""

from typing import Annotated

import typer

from splitpin.calculations.answer import Answer, take
from splitpin.calculations.given import Problem
from splitpin.calculations.limits import Verdict
from splitpin.calculations.reading import Reading
from splitpin.calculations.register import READINGS
from splitpin.cli import exits
from splitpin.cli.arguments import AsJson, LimitDay
from splitpin.cli.saying import answer, answer_json, usage
from splitpin.notices.nearest import among, nearest
from splitpin.reading.library import read_library
from splitpin.sheets.catalogue.reading_text import reading_text, readings_text


def run(
    name: Annotated[str | None, typer.Argument(metavar="NAME", help="A reading; left out: list them.")] = None,
    pairs: Annotated[list[str] | None, typer.Argument(metavar="KEY=VALUE", help="Its inputs.")] = None,
    jurisdiction: Annotated[
        str | None, typer.Option("--jurisdiction", help="Whose limits. Default: general, then gb.")
    ] = None,
    date: LimitDay = None,
    as_json: AsJson = False,
) -> None:
    """Compute a reading, with its formula, source and limit; without a name, list them."""
    if name is None:
        if as_json:
            answer_json({"readings": [_described(reading) for reading in READINGS.values()]})
        else:
            answer(readings_text(READINGS.values()))
        return
    if name not in READINGS:
        near = nearest(name, READINGS)
        hint = f"did you mean {near}?" if near else "splitpin reading lists them"
        raise usage(f"there is no reading {name}; {hint}")
    limits = read_library(assemblies=())[0].limits
    if jurisdiction is not None and jurisdiction not in limits:
        raise usage(f"there are no limits for {jurisdiction}; {among(jurisdiction, limits)}")
    found = take(READINGS[name], pairs or [], limits, jurisdiction, date)
    if isinstance(found, Answer):
        answer_json(_as_json(found)) if as_json else answer(reading_text(found))
        return
    if as_json:
        answer_json({"reading": name, "errors": [_problem_as_json(problem) for problem in found]})
    else:
        typer.echo("\n".join(f"error: {problem.message}\n  hint: {problem.hint}" for problem in found), err=True)
    raise SystemExit(exits.ERRORS)


def _described(reading: Reading) -> dict[str, object]:
    return {
        "name": reading.name,
        "title": reading.title,
        "inputs": [
            {
                "name": one.name,
                "title": one.title,
                "unit": one.unit or None,
                "allowed": one.allowed,
                "default": one.default,
            }
            for one in reading.inputs
        ],
        "formula": reading.formula,
        "source": reading.source,
    }


def _as_json(found: Answer) -> dict[str, object]:
    return {
        "reading": found.reading.name,
        "title": found.reading.title,
        "given": [
            {"name": one.input.name, "value": one.text, "unit": one.input.unit or None, "default": one.by_default}
            for one in found.given
        ],
        "results": [
            {
                "name": line.result.name,
                "title": line.result.title,
                "value": line.figure,
                "unit": line.result.unit or None,
                "limit": line.verdict and _verdict_as_json(line.verdict),
            }
            for line in found.lines
        ],
        "limit_that_follows": found.decides and _verdict_as_json(found.decides),
        "formula": found.reading.formula,
        "source": found.reading.source,
        "note": found.reading.note or None,
    }


def _verdict_as_json(verdict: Verdict) -> dict[str, object]:
    return {
        "id": verdict.limit,
        "text": verdict.text,
        "passes": verdict.passes,
        "jurisdiction": verdict.jurisdiction or None,
        "source": verdict.source or None,
        "note": verdict.note or None,
    }


def _problem_as_json(problem: Problem) -> dict[str, object]:
    return {"input": problem.input, "message": problem.message, "hint": problem.hint}
