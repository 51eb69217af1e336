"""A record as the TOML file that says it: keys in the record's order, what is left at its default left out.

Comments are not kept; a file written by hand is better left as it is. What is written reads back as an equal record.
"""

import datetime
from decimal import Decimal
from typing import Any

import tomli_w
from pydantic import BaseModel

from splitpin.records.base import Record


def canonical(record: Record) -> str:
    """The text of the file, ending in a line end. Raises TypeError for a record that holds what TOML cannot say."""
    return tomli_w.dumps(_table(record), multiline_strings=True, indent=4)


def _table(record: BaseModel) -> dict[str, Any]:
    table = {}
    for name, field in type(record).model_fields.items():
        value = getattr(record, name)
        if name == "place" or value is None or value == field.get_default(call_default_factory=True):
            continue
        table[name] = _alternatives(value) if name == "behind" else _value(value)
    for name, value in (record.__pydantic_extra__ or {}).items():  # keys that the record leaves open
        table[name] = _value(value)
    return table


def _value(value: Any) -> Any:
    if isinstance(value, BaseModel):
        return _table(value)
    if isinstance(value, dict):
        return {key: _value(item) for key, item in value.items()}
    if isinstance(value, tuple):
        return [_value(item) for item in value]
    if isinstance(value, Decimal):
        return str(value)  # money stands in quotes
    if isinstance(value, (str, bool, int, float, datetime.date)):
        return value
    raise TypeError(f"TOML has no word for {value!r}")


def _alternatives(sets: tuple[tuple[str, ...], ...]) -> list[Any]:
    """One set as a list of names; a choice of sets as a list of lists."""
    return list(sets[0]) if len(sets) == 1 else [list(one) for one in sets]
