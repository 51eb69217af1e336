"""One TOML file read: its values, where they stand, and the record they make when nothing is wrong with them."""

from collections.abc import Iterator
from dataclasses import dataclass
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
    """

    toml: Located
    kind: type[Record]
    record: Record | None = None

    @property
    def path(self) -> str:
        """The file as it is named in print."""
        return self.toml.path

    def tables(self) -> Iterator[tuple[type[Record], Steps, dict[str, Any]]]:
        """Every table that is to become a record, with its kind and the way to it, in the order of the records."""
        return _tables(self.kind, (), self.toml.data)


def _tables(kind: type[Record], steps: Steps, table: Any) -> Iterator[tuple[type[Record], Steps, dict[str, Any]]]:
    if not isinstance(table, dict):
        return  # the record's own check gives notice of this
    yield kind, steps, table
    for name, (inner, by_name) in nested(kind).items():
        value = table.get(name)
        if by_name and isinstance(value, dict):
            for key, item in value.items():
                yield from _tables(inner, (*steps, name, key), item)
        elif isinstance(value, list):
            for index, item in enumerate(value):
                yield from _tables(inner, (*steps, name, index), item)
        elif value is not None:
            yield from _tables(inner, (*steps, name), value)


def read_document(file: Path, path: str) -> tuple[Document | None, list[Notice]]:
    """The file, called `path` in print, and what is wrong with it; None where it is no text.

    Cost grows with the length of the file. Where something stands in it is looked for when it is asked for.
    """
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
        return _recorded(Document(toml, kind))
    return _with_builds(source, file, toml)


def _with_builds(source: Source, file: Path, toml: Located) -> tuple[Document | None, list[Notice]]:
    """An assembly with the builds that it includes, each at the end of its text."""
    whole = expanded(source, file, toml)
    try:
        toml = located(whole.lines)
    except ValueError as error:
        return _unreadable(source), [syntax_notice(error, whole.lines)]
    document, notices = _recorded(Document(toml, Assembly))
    if isinstance(document.record, Assembly):  # what it includes stands in it now; without a build it is not whole
        record = None if whole.notices else document.record.model_copy(update={"include": ()})
        document = Document(toml, Assembly, record)
    return document, [*whole.notices, *notices]


def _unreadable(source: Source) -> Document:
    return Document(Located({}, Lines(source.path, source.text), lambda text: NO_SPOT), Record)


def _recorded(document: Document) -> tuple[Document, list[Notice]]:
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
        return Document(toml, kind, kind.model_validate(toml.data)), notices
    except ValidationError as error:
        return document, notices + value_notices(error, toml, kind)
