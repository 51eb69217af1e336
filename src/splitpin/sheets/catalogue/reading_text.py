"""Calculated readings as plain text for 80 columns: the list of them, and one worked out and held against its limit."""

import textwrap
from collections.abc import Iterable

from splitpin.calculations.answer import Answer, Line
from splitpin.calculations.limits import NOT_SET, Verdict
from splitpin.calculations.reading import Reading

WIDTH = 80
COME_FIRST = "The maker's instructions, local codes and licensed persons come first."


def readings_text(readings: Iterable[Reading]) -> str:
    """The readings there are, each with what it is worked out from."""
    return "\n".join(line for reading in readings for line in _listed(reading))


def reading_text(found: Answer) -> str:
    """A reading worked out: what was given, its results against their limits, formula and source."""
    return "\n".join(_lines(found))


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


def _lines(found: Answer) -> list[str]:
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
