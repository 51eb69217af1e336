"""One TOML file read: its values, where they stand, and the record they make when nothing is wrong with them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import tomli
from pydantic import ValidationError

from splitpin.notices import Notice, Place
from splitpin.reading.builds import expanded, located
from splitpin.reading.located import Located, Steps
from splitpin.reading.positions import NO_SPOT, Lines
from splitpin.reading.source import Source, read_source
from splitpin.reading.syntax import syntax_notice
from splitpin.reading.tables import kind_of, nested
from splitpin.reading.wording import value_notices
from splitpin.records.assembly import Assembly
from splitpin.records.base import Record

FORMAT = 1


@dataclass(frozen=True, slots=True)
class Document:
    """A file that could be read as text.

    `kind` is the record that the file as a whole makes; plain `Record` where that cannot be known, and the file then
    has no tables. `record` is None where a value is wrong; what such a file declares counts as declared all the same.
    `left_out` are rows, by key and number, that nobody asks for: they are in neither the record nor the tables.
    """

    toml: Located
    kind: type[Record]
    record: Record | None = None
    left_out: frozenset[tuple[str, int]] = frozenset()

    @property
    def path(self) -> str:
        """The file as it is named in print."""
        return self.toml.path

    def tables(self) -> Iterator[tuple[type[Record], Steps, dict[str, Any]]]:
        """Every table that is to become a record, with its kind and the way to it, in the order of the records."""
        return tables_of(self.kind, (), self._asked_for)

    @property
    def _asked_for(self) -> dict[str, Any]:
        """The data with None in the place of each row that is left out."""
        if not self.left_out:
            return self.toml.data
        return {
            key: [None if (key, at) in self.left_out else row for at, row in enumerate(value)]
            if isinstance(value, list)
            else value
            for key, value in self.toml.data.items()
        }

    def validated(self) -> Record:
        """The record. Raises ValidationError, whose places are right where no row is left out."""
        data = self._asked_for
        if self.left_out:
            data = {k: [row for row in v if row is not None] if isinstance(v, list) else v for k, v in data.items()}
        return self.kind.model_validate(data)


def tables_of(kind: type[Record], steps: Steps, table: Any) -> Iterator[tuple[type[Record], Steps, dict[str, Any]]]:
    """A table and every table in it, each with its kind and the way to it."""
    if not isinstance(table, dict):
        return  # the record's own check gives notice of this
    yield kind, steps, table
    for name, (inner, by_name) in nested(kind).items():
        value = table.get(name)
        if value is None:
            continue
        if by_name and isinstance(value, dict):
            for key, item in value.items():
                yield from tables_of(inner, (*steps, name, key), item)
        elif isinstance(value, list):
            for index, item in enumerate(value):
                yield from tables_of(inner, (*steps, name, index), item)
        else:
            yield from tables_of(inner, (*steps, name), value)


def read_document(file: Path, path: str) -> tuple[Document | None, list[Notice]]:
    """The file, called `path` in print, and what is wrong with it; None where it is no text.

    Cost grows with the length of the file. Where something stands in it is looked for when it is asked for.
    """
    document, wrong = parse_document(file, path)
    if document is None or document.kind is Record:
        return document, wrong
    document, notices = recorded(document)
    return (replace(document, record=None) if wrong else document), [*wrong, *notices]  # not whole without its builds


def parse_document(file: Path, path: str) -> tuple[Document | None, list[Notice]]:
    """The same before any record is made: the values, and what the file describes. An assembly is made whole here."""
    source = read_source(file, path)
    if isinstance(source, Notice):
        return None, [source]
    try:
        data = tomli.loads(source.text)
    except (ValueError, RecursionError) as error:
        return _unreadable(source), [syntax_notice(error, Lines(path, source.text))]
    toml = Located(data, Lines(path, source.text))
    kind = kind_of(toml)
    if isinstance(kind, Notice):
        return _unreadable(source), [kind]
    if "include" not in data or kind is not Assembly:
        return Document(toml, kind), []
    return _with_builds(source, file, toml)


def _with_builds(source: Source, file: Path, toml: Located) -> tuple[Document | None, list[Notice]]:
    """An assembly with the builds that it includes, each at the end of its text."""
    whole = expanded(source, file, toml)
    try:
        toml = located(whole.lines)
    except ValueError as error:
        return _unreadable(source), [syntax_notice(error, whole.lines)]
    return Document(toml, Assembly), list(whole.notices)


def _unreadable(source: Source) -> Document:
    return Document(Located({}, Lines(source.path, source.text), lambda text: NO_SPOT), Record)


def recorded(document: Document) -> tuple[Document, list[Notice]]:
    """The document with its record, which is None where a value is wrong, and what is wrong."""
    toml, kind = document.toml, document.kind
    written = toml.data.get("format", FORMAT)
    if type(written) is not int or written != FORMAT:
        message = f"`format` is {toml.typed('format')}; this version reads format {FORMAT}"
        return document, [Notice("format-unknown", message, toml.place("format"))]
    notices = []
    if "format" not in toml.data:
        toml.data["format"] = FORMAT  # so that the rest can be checked
        start = Place(toml.path, 1, 1)
        notices.append(
            Notice("format-unknown", "this file has no `format`", start, f"begin it with `format = {FORMAT}`")
        )
    for _, steps, table in document.tables():
        if "place" in table:  # the records hold their places under this name
            where = toml.key_place(*steps, "place")
            notices.append(Notice("unknown-key", f"`place` is not a key of {toml.named(steps)}", where))
        table["place"] = toml.later(steps)
    try:
        record = document.validated()
        if isinstance(record, Assembly):  # what it includes stands in it now
            record = record.model_copy(update={"include": ()})
        return replace(document, record=record), notices
    except ValidationError as error:
        return document, notices + value_notices(error, toml, kind)
