"""One TOML file read: its values, where they stand, and the record they make when nothing is wrong with them."""

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from splitpin.notices import Notice
from splitpin.reading.located import Located
from splitpin.reading.positions import Lines, Spot, scan
from splitpin.reading.source import read_source
from splitpin.reading.syntax import syntax_notice
from splitpin.reading.tables import kind_of, nested
from splitpin.reading.wording import value_notices
from splitpin.records.base import Record


@dataclass(frozen=True, slots=True)
class Document:
    """A file whose kind is known. `record` is None where a value is wrong; what it declares counts all the same."""

    toml: Located
    kind: type[Record]
    record: Record | None

    @property
    def path(self) -> str:
        """The file as it is named in print."""
        return self.toml.path


def read_document(file: Path, path: str) -> tuple[Document | None, list[Notice]]:
    """The file, called `path` in print, and what is wrong with it; None where its kind cannot be known.

    Cost grows with the length of the file: tomllib, the scanner and the records take about a third each.
    """
    source = read_source(file, path)
    if isinstance(source, Notice):
        return None, [source]
    try:
        data = tomllib.loads(source.text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        return None, [syntax_notice(error, source)]
    toml = Located(data, scan(source.text), Lines(path, source.text))
    kind = kind_of(toml)
    if isinstance(kind, Notice):
        return None, [kind]
    notices = _put_places(toml, kind)
    try:
        return Document(toml, kind, kind.model_validate(data)), notices
    except ValidationError as error:
        return Document(toml, kind, None), notices + value_notices(error, toml, kind)


def _put_places(toml: Located, kind: type[Record]) -> list[Notice]:
    """Puts its place into every table that becomes a record, and gives notice where a file has a key of that name."""
    notices: list[Notice] = []

    def mark(table: Any, spot: Spot, record: type[Record]) -> None:
        if not isinstance(table, dict):
            return  # the record's own check gives notice of this
        assert isinstance(spot.inside, dict)
        if "place" in table:
            where = spot.inside["place"]
            notices.append(
                Notice("unknown-key", "`place` is not a key of any table", toml.lines.place(where.key, where.key_end))
            )
        for name, (inner, by_name) in nested(record).items():
            value = table.get(name)
            if value is None:
                continue
            inside = spot.inside[name]
            if by_name and isinstance(value, dict) and isinstance(inside.inside, dict):
                for key, item in value.items():
                    mark(item, inside.inside[key], inner)
            elif isinstance(value, list) and isinstance(inside.inside, list):
                for item, item_spot in zip(value, inside.inside, strict=True):
                    mark(item, item_spot, inner)
            else:
                mark(value, inside, inner)
        table["place"] = toml.lines.place(spot.start, spot.end)

    mark(toml.data, toml.spots, kind)
    return notices
