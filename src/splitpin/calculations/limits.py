"""A result held against its limit: from the jurisdiction, else the general set, valid on the day. Never a guess."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from splitpin import units
from splitpin.calculations.reading import Result, Value, words

if TYPE_CHECKING:
    from splitpin.records.procedure import Limit, LimitsFile

GENERAL = "general"
WHEN_NONE_IS_NAMED = (GENERAL, "gb")  # the general set first; what it leaves open, from the one national set there is
NOT_SET = "limit not set: enter from your standard"


@dataclass(frozen=True, slots=True)
class Verdict:
    """A limit and whether the value keeps it. `passes` is None where nothing can be compared: `text` says why."""

    limit: str
    text: str
    passes: bool | None = None
    jurisdiction: str = ""
    source: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Standing:
    """The row of a limit that stands on a day; `row` is None where none is set that may be relied on. `note` says what
    the row says of itself, or why no row could be chosen.
    """

    row: Limit | None
    jurisdiction: str = ""
    source: str = ""
    note: str = ""


def standing(
    name: str, limits: Mapping[str, LimitsFile], jurisdiction: str | None = None, date: datetime.date | None = None
) -> Standing:
    """What stands for the limit `name`, chosen as `judge` says. A row from memory, or without bounds, is not set."""
    row, where, wants_date = _row(name, limits, jurisdiction, date)
    if row is None:
        return Standing(None, note="Its editions change with the day: give the date." if wants_date else "")
    source = ", ".join(part for part in (row.source, row.edition) if part)
    if not _is_set(row):
        return Standing(None, where, source, row.note or "")
    return Standing(row, where, source or row.origin, row.note or "")


def judge(
    name: str,
    result: Result | None,
    value: Value | None,
    limits: Mapping[str, LimitsFile],
    jurisdiction: str | None = None,
    date: datetime.date | None = None,
) -> Verdict:
    """The verdict on a value by the limit `name`; without a result the limit is only looked up.

    `jurisdiction`: its rows come first, then the general set, as on a sheet. None: the general set, then what it does
    not set from `WHEN_NONE_IS_NAMED`. Bounds belong to what passes. The exact value is compared, not the rounded one.
    """
    found = standing(name, limits, jurisdiction, date)
    row, rest = found.row, (found.jurisdiction, found.source, found.note)
    if row is None:
        return Verdict(name, NOT_SET, None, *rest)
    if result is None or not isinstance(value, Fraction):
        return Verdict(name, _bounds(row), None, *rest)
    if row.unit != result.unit:
        return Verdict(name, f"{_bounds(row)}: not compared with {result.unit}", None, *rest)
    passes = _keeps(row, value)
    return Verdict(name, _bounds(row) + _hair(row, result, value, passes), passes, *rest)


def _row(
    name: str, limits: Mapping[str, LimitsFile], jurisdiction: str | None, date: datetime.date | None
) -> tuple[Limit | None, str, bool]:
    """The row that counts, the title of its jurisdiction, and whether it cannot be said for want of a date."""
    order = WHEN_NONE_IS_NAMED if jurisdiction is None else (jurisdiction, GENERAL)
    files = [limits[one] for one in order if one in limits]
    rows = [(row, file.jurisdiction.title) for file in files for row in file.limit if row.id == name]
    if date is None and any(row.valid_from or row.valid_until for row, _ in rows):
        return None, "", True  # another row must not stand in unseen for one that holds on some days
    valid = [(row, title) for row, title in rows if _holds(row, date)]
    if jurisdiction is None:
        valid.sort(key=lambda found: not _is_set(found[0]))
    return (*valid[0], False) if valid else (None, "", False)


def _holds(row: Limit, date: datetime.date | None) -> bool:
    """A limit with a first or last day holds only on a known day between them."""
    if row.valid_from is None and row.valid_until is None:
        return True
    return date is not None and (row.valid_from or date) <= date <= (row.valid_until or date)


def _is_set(row: Limit) -> bool:
    """Whether there is a bound that may be relied on: one from memory may not."""
    return row.basis != "from memory" and not (row.min is None and row.max is None)


def _keeps(row: Limit, value: Fraction) -> bool:
    return (row.min is None or value >= Fraction(str(row.min))) and (row.max is None or value <= Fraction(str(row.max)))


def _bounds(row: Limit) -> str:
    unit = "" if row.unit == "ratio" else f" {row.unit}"
    bounds = [] if row.min is None else [f"at least {units.number(row.min)}{unit}"]
    return " and ".join([*bounds, *([] if row.max is None else [f"at most {units.number(row.max)}{unit}"])])


def _hair(row: Limit, result: Result, value: Fraction, passes: bool) -> str:
    """Where rounding would turn the verdict round: the value with the digits that show it."""
    if _keeps(row, Fraction(words(value, result.digits))) == passes:
        return ""
    digits = result.digits + 1
    while digits < result.digits + 12 and _keeps(row, Fraction(words(value, digits))) != passes:
        digits += 1
    return f"; before rounding {words(value, digits)}"
