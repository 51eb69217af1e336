"""The rows of the catalogue and of the procedures that a job needs: those named, and what these name in turn."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from splitpin.reading.crossrefs import named
from splitpin.reading.declared import EVERYWHERE
from splitpin.reading.document import Document, tables_of
from splitpin.reading.tables import nested
from splitpin.records.base import Record
from splitpin.records.words import HAND_OVER

# What a job may need without naming it stays whole: tools for a torque, parts of a price list, rows by mass.
_BY_NAME = frozenset({"boundary", "caution", "condition", "fact", "hardware", "medium", "proof", "seal"})

Row = tuple[int, str, int]  # a document by its number, a key of it, a number in that list


def needed(roots: Iterable[Document], rows: Sequence[Document]) -> list[Document]:
    """The documents of `rows`, each without the rows that nobody names.

    A condition is needed, too, where one is that it satisfies. Two rows of one name are both needed: which of them is
    meant, nobody can say. Cost grows with the tables that are needed, and with the names of all rows.
    """
    by_name, always = _rows(rows)
    every = {row for found in by_name.values() for row in found}
    wanted: set[Row] = set()
    open_tables = [(kind, table) for document in roots for kind, _, table in document.tables()]
    open_tables += [found for document, key, at in always for found in _inside(rows[document], key, at)]
    names = [("proof", HAND_OVER)]
    while names or open_tables:
        if open_tables:
            names += named(*open_tables.pop())
            continue
        for row in by_name.pop(names.pop(), ()):
            if row not in wanted:
                wanted.add(row)
                open_tables += _inside(rows[row[0]], *row[1:])
    kept = {number for number, _, _ in (*always, *wanted)}  # of a file with none of its rows only the ids are known
    left_out: dict[int, set[tuple[str, int]]] = defaultdict(set)
    for number, key, at in every - wanted:
        left_out[number].add((key, at))
    return [
        replace(document, left_out=frozenset(left_out[number])) if number in kept else replace(document, kind=Record)
        for number, document in enumerate(rows)
    ]


def _rows(documents: Sequence[Document]) -> tuple[dict[tuple[str, str], list[Row]], list[Row]]:
    """The rows that are read when named, by what and whom they answer to; and the rows that always are."""
    by_name: dict[tuple[str, str], list[Row]] = defaultdict(list)
    always: list[Row] = []
    for number, document in enumerate(documents):
        for key, (kind, _) in nested(document.kind).items():
            noun, rows = EVERYWHERE.get(kind, ""), document.toml.data.get(key)
            for at, row in enumerate(rows if isinstance(rows, list) else ()):
                answers = _answers(row) if noun in _BY_NAME else ()
                for name in answers:
                    by_name[noun, name].append((number, key, at))
                if not answers:
                    always.append((number, key, at))
    return by_name, always


def _answers(row: Any) -> tuple[str, ...]:
    """The names that need the row: its own, and those of the conditions it satisfies; none where it has no name."""
    if not isinstance(row, dict) or not isinstance(row.get("id"), str):
        return ()
    lesser = row.get("satisfies")
    return (row["id"], *(name for name in (lesser if isinstance(lesser, list) else ()) if isinstance(name, str)))


def _inside(document: Document, key: str, at: int) -> list[tuple[type[Record], dict[str, Any]]]:
    kind, _ = nested(document.kind)[key]
    return [(inner, table) for inner, _, table in tables_of(kind, (), document.toml.data[key][at])]
