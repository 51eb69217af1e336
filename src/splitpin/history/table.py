"""Visits as a table of cells parted by commas (RFC 4180), to take elsewhere and to bring back without loss.

What a visit has several of stands as JSON in one cell. A text that a spreadsheet would take for a formula gets an
apostrophe before it, as does a text that begins with one; reading takes it away again.
"""

import csv
import datetime
import io
import json
from typing import Any

from splitpin.history.visit import PastVisit
from splitpin.records.actual import ActualPart, ActualReading

COLUMNS = PastVisit._fields
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "'")
_NUMBERS = ("planned_s", "taken_s", "waiting_s")
_SEVERAL = ("phases", "tasks", "symptoms", "found", "readings", "parts")


class NotATable(Exception):
    """A table that is not one of visits; the message names the line."""


def as_table(visits: tuple[PastVisit, ...]) -> str:
    """The visits, a head line first; lines end as the standard says."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for visit in visits:
        writer.writerow([_cell(name, getattr(visit, name)) for name in COLUMNS])
    return text.getvalue()


def _cell(name: str, value: Any) -> str:
    if value is None:
        return ""
    if name in _SEVERAL:
        rows = (
            value
            if name in ("phases", "symptoms", "tasks", "found")
            else [row.model_dump(mode="json") for row in value]
        )
        return json.dumps(rows, ensure_ascii=False)
    if name in _NUMBERS:
        return repr(value)
    text = str(value)
    return "'" + text if text.startswith(_FORMULA) else text


def of_table(text: str) -> tuple[PastVisit, ...]:
    """The visits of a table. Raises NotATable for another head, a line of another width, a cell that cannot be read."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    usual = csv.field_size_limit(max(len(text), 1))  # a cell with many readings is longer than the usual limit
    try:
        lines = [(reader.line_num, line) for line in reader if line]
    except csv.Error as error:
        raise NotATable(f"line {reader.line_num}: {error}") from None
    finally:
        csv.field_size_limit(usual)
    if not lines or tuple(lines[0][1]) != COLUMNS:
        raise NotATable(f"line 1: the columns must be {','.join(COLUMNS)}")
    return tuple(_visit(number, line) for number, line in lines[1:])


def _visit(number: int, line: list[str]) -> PastVisit:
    if len(line) != len(COLUMNS):
        raise NotATable(f"line {number}: {len(line)} cells under {len(COLUMNS)} columns")
    found: dict[str, Any] = {}
    for name, cell in zip(COLUMNS, line, strict=True):
        try:
            found[name] = _value(name, cell)
        except (ValueError, TypeError, KeyError, OverflowError, RecursionError):
            raise NotATable(f"line {number}: `{name}` is {cell[:60]}, which cannot be read") from None
    return PastVisit(**found)


def _value(name: str, cell: str) -> Any:
    if name in _NUMBERS:
        return None if cell == "" and name == "waiting_s" else _seconds(cell)
    if name in _SEVERAL:
        rows = json.loads(cell)
        json.dumps(rows, ensure_ascii=False, allow_nan=False).encode("utf-8")  # ValueError for what no file can hold
        if not isinstance(rows, dict if name == "phases" else list):
            raise TypeError(name)
        return _several(name, rows)
    text = cell.removeprefix("'")
    if name == "date":
        return datetime.date.fromisoformat(text)
    if name == "notes":
        return text or None
    if not text:
        raise ValueError(name)
    return text


def _seconds(value: Any) -> float:
    seconds = float(value)
    if not 0 <= seconds < 1e7:  # so is a value that is no number
        raise ValueError(value)
    return seconds


def _several(name: str, rows: Any) -> Any:
    if name == "phases":
        return {phase: (_seconds(planned), _seconds(taken)) for phase, (planned, taken) in rows.items()}
    if name == "symptoms":
        return tuple(str(row) for row in rows)
    if name in ("tasks", "found"):
        if not all(isinstance(row, list) for row in rows):
            raise TypeError(name)
        return tuple((str(component), str(task)) for component, task in rows)
    record = ActualReading if name == "readings" else ActualPart
    return tuple(record.model_validate(row) for row in rows)
