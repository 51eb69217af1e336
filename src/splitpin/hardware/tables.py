"""The tables of `catalog/standards/`: read when first asked for, kept, looked up by their key columns.

A table is a CSV file: comment lines begin `#`, the first other line names the columns, every row has a `mark` and a
`source`.
"""

import csv
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from splitpin import data_top

MARKS = ("agreed", "one source", "corrected", "disputed", "from memory")

Row = Mapping[str, str]


@cache
def rows(name: str) -> tuple[Row, ...]:
    """The rows of `catalog/standards/NAME.csv` in file order.

    Raises `ValueError` where a row is not as wide as the head. Cost: one pass over the file, once per process; the
    largest table has 349 rows.
    """
    file = data_top() / "catalog" / "standards" / f"{name}.csv"
    lines = [line for line in file.read_text(encoding="utf-8").splitlines() if line and not line.startswith("#")]
    head, *body = csv.reader(lines, strict=True)
    for cells in body:
        if len(cells) != len(head):
            raise ValueError(f"{name}: {cells[0]}: {len(cells)} cells under {len(head)} columns")
    return tuple(MappingProxyType(dict(zip(head, cells, strict=True))) for cells in body)


@cache
def index(name: str, *columns: str) -> Mapping[tuple[str, ...], Row]:
    """The rows of a table by the values of some columns; raises `ValueError` where two rows have the same key."""
    found: dict[tuple[str, ...], Row] = {}
    for row in rows(name):
        key = tuple(row[column] for column in columns)
        if key in found:
            raise ValueError(f"{name}: two rows for {' '.join(key)}")
        found[key] = row
    return MappingProxyType(found)


def origin(row: Row) -> str:
    """Where a row comes from, its mark said wherever it is weaker than two sources agreeing."""
    words = row["source"] or row["mark"]
    return words if row["mark"] in ("agreed", words) else f"{words} ({row['mark']})"
