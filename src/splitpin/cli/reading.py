"""`splitpin reading`."""

import datetime
import textwrap

import typer

from splitpin.calculations.answer import Answer, Line, take
from splitpin.calculations.given import Problem
from splitpin.calculations.limits import NOT_SET, Verdict
from splitpin.calculations.reading import Reading
from splitpin.calculations.register import READINGS
from splitpin.cli import exits
from splitpin.cli.saying import answer, answer_json, usage
from splitpin.notices.nearest import among, nearest
from splitpin.reading.library import read_library

WIDTH = 80
COME_FIRST = "The maker's instructions, local codes and licensed persons come first."


def run(
    name: str | None,
    pairs: list[str],
    *,
    as_json: bool,
    jurisdiction: str | None = None,
    date: datetime.date | None = None,
) -> None:
    """List the calculated readings, or compute one and hold it against its limit."""
    if name is None:
        if as_json:
            answer_json({"readings": [_described(reading) for reading in READINGS.values()]})
        else:
            answer("\n".join(line for reading in READINGS.values() for line in _listed(reading)))
        return
    if name not in READINGS:
        near = nearest(name, READINGS)
        hint = f"did you mean {near}?" if near else "splitpin reading lists them"
        raise usage(f"there is no reading {name}; {hint}")
    limits = read_library(assemblies=())[0].limits
    if jurisdiction is not None and jurisdiction not in limits:
        raise usage(f"there are no limits for {jurisdiction}; {among(jurisdiction, limits)}")
    found = take(READINGS[name], pairs, limits, jurisdiction, date)
    if isinstance(found, Answer):
        answer_json(_as_json(found)) if as_json else answer("\n".join(_text(found)))
        return
    if as_json:
        answer_json({"reading": name, "errors": [_problem_as_json(problem) for problem in found]})
    else:
        typer.echo("\n".join(f"error: {problem.message}\n  hint: {problem.hint}" for problem in found), err=True)
    raise SystemExit(exits.ERRORS)


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(
        text, WIDTH, initial_indent=indent, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )


def _listed(reading: Reading) -> list[str]:
    lines = [reading.name, f"  {reading.title}"]
    for one in reading.inputs:
        default = "" if one.default is None else f" (default {one.default})"
        lines += _wrapped(f"{one.name}=… {one.title}: {one.allowed}{default}", "      ")
    return lines


def _text(found: Answer) -> list[str]:
    reading = found.reading
    lines = [f"{reading.name}: {reading.title}", "", "Given"]
    for one in found.given:
        unit = f" {one.input.unit}" if one.input.unit[:1] not in ("", "(") else ""
        lines += _wrapped(f"{one.input.name}={one.text}{unit}{' (default)' if one.by_default else ''}", "  ")
    lines += ["", "Result"]
    for line in found.lines:
        lines += _result(line)
    if found.decides is not None:
        lines += [f"  limit that follows: {found.decides.limit}", *_verdict(found.decides)]
    lines += ["", "Formula", *_wrapped(reading.formula, "  "), "", "Source", *_wrapped(reading.source, "  ")]
    return [*lines, "", "Note", *_wrapped(f"{reading.note} {COME_FIRST}".lstrip(), "  ")]


def _result(line: Line) -> list[str]:
    head = _wrapped(f"{line.result.title}: {line.text}", "  ")
    return head if line.verdict is None else [*head, *_verdict(line.verdict)]


def _verdict(verdict: Verdict) -> list[str]:
    words = {True: ": passes", False: ": does not pass", None: ""}[verdict.passes]
    where = f" ({verdict.jurisdiction})" if verdict.jurisdiction else ""
    head = verdict.text if verdict.text == NOT_SET else f"limit: {verdict.text}{words}"
    lines = _wrapped(head + where, "      ")
    if verdict.source:
        lines += _wrapped(f"[{verdict.source}]", "      ")
    return lines + _wrapped(verdict.note, "      ")


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
