"""A reading taken: inputs in, values out, each held against its limit."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.calculations.given import Given, Problem, read_given
from splitpin.calculations.limits import Verdict, judge
from splitpin.calculations.reading import OutsideMethod, Reading, Result, Value, words

if TYPE_CHECKING:
    from splitpin.records.procedure import LimitsFile


@dataclass(frozen=True, slots=True)
class Line:
    """One result: its exact value, and the verdict where it has a limit."""

    result: Result
    value: Value
    verdict: Verdict | None

    @property
    def figure(self) -> str:
        """The value rounded to the digits of the result, without a unit; words as they are."""
        return words(self.value, self.result.digits)

    @property
    def text(self) -> str:
        """The figure with its unit: `24.09 kW`; a ratio has none, nor have words in place of a figure."""
        bare = self.result.unit in ("", "ratio") or isinstance(self.value, str)
        return self.figure if bare else f"{self.figure} {self.result.unit}"


@dataclass(frozen=True, slots=True)
class Answer:
    """A reading with the inputs it was taken from and its results; `decides` is the limit that follows from them."""

    reading: Reading
    given: tuple[Given, ...]
    lines: tuple[Line, ...]
    decides: Verdict | None = None


def take(
    reading: Reading,
    pairs: Iterable[str],
    limits: Mapping[str, LimitsFile],
    jurisdiction: str | None = None,
    date: datetime.date | None = None,
) -> Answer | tuple[Problem, ...]:
    """The answer of a reading from `key=value` texts, or all that is wrong with them.

    `limits` are files by jurisdiction; how `jurisdiction` and `date` choose among them is said at `limits.judge`.
    """
    given, problems = read_given(reading, pairs)
    if problems:
        return problems
    try:
        values = reading.compute(**{one.input.name: one.value for one in given})
    except OutsideMethod as end:
        return (Problem(None, end.message, end.hint),)
    lines = tuple(
        Line(
            result,
            value,
            None if result.limit is None else judge(result.limit, result, value, limits, jurisdiction, date),
        )
        for result, value in zip(reading.results, values, strict=True)
    )
    chosen = None if reading.decides is None else judge(reading.decides, None, None, limits, jurisdiction, date)
    return Answer(reading, given, lines, chosen)
