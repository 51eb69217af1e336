"""The documents name what there is: every key of every file, every command, every room."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
from pydantic import BaseModel
from tests.test_house import PIPELINE, ROOMS

from splitpin.records import assembly, catalogue, firm, job, prices, procedure
from splitpin.records import round as rounds
from splitpin.records.base import Record, Spread

FILES = [
    record
    for module in (assembly, catalogue, firm, job, procedure, rounds)
    for record in vars(module).values()
    if isinstance(record, type) and issubclass(record, Record) and "format" in record.model_fields
]
EVERYWHERE = {"format", "place", "source", "basis"}  # said once of all files; `place` is what the reader puts in


def tables() -> list[tuple[str, type[BaseModel]]]:
    """Every table of every kind of file by its name in TOML without brackets, and what may stand in it."""
    found = [("prices.csv", prices.Price), ("stock.csv", rounds.Stock)]
    for file in FILES:
        found += nested(file, "")
    return list(dict.fromkeys(found))


def nested(record: type[BaseModel], prefix: str) -> Iterator[tuple[str, type[BaseModel]]]:
    for name, field in record.model_fields.items():
        for inner in records_in(field.annotation):
            yield prefix + name, inner
            yield from nested(inner, f"{prefix}{name}.")


def records_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, Record) and annotation is not Spread:
        yield annotation
    for inner in get_args(annotation):
        yield from records_in(inner)


def described(root: Path) -> list[tuple[set[str], set[str]]]:
    """Of each table of the document: the names of TOML in its head, and the keys in its first column."""
    text = (root / "docs" / "file-format.md").read_text(encoding="utf-8")
    found = []
    for head, rows in re.findall(r"^\| (.*?) \| .*\n\|(?:---\|)+\n((?:\|.*\n)+)", text, flags=re.MULTILINE):
        names = {re.sub(r"[\[\]]|\.NAME", "", name) for name in re.findall(r"`(.+?)`", head)}
        firsts = [re.split(r"(?<!\\)\|", row)[1] for row in rows.splitlines()]
        found.append((names, {key for cell in firsts for key in re.findall(r"`([a-z_]+)`", cell)}))
    return found


@pytest.mark.parametrize("name", sorted({name for name, _ in tables()}))
def test_every_key_has_its_row_in_the_file_format_and_no_row_is_left_over(name: str, root: Path) -> None:
    there = described(root)
    heads = set().union(*(names for names, _ in there))
    rows = set().union(*(keys for names, keys in there if name in names))
    keys = {key for table, record in tables() if table == name for key in record.model_fields} - EVERYWHERE
    assert {key for key in keys if f"{name}.{key}" not in heads} <= rows
    assert rows <= keys


def test_every_table_of_the_file_format_is_one(root: Path) -> None:
    heads = {name for names, _ in described(root) for name in names}
    assert heads == {name for name, _ in tables()}


def test_the_rooms_stand_in_the_contributor_guide_in_their_order(root: Path) -> None:
    text = (root / "DEVELOPERS.md").read_text(encoding="utf-8")
    rooms = re.findall(r"^\| `([a-z/]+?)/?` \|", text, flags=re.MULTILINE)
    assert [room for room in rooms if "/" not in room] == list(ROOMS)
    assert [room.removeprefix("planning/") for room in rooms if "/" in room] == [*PIPELINE, "check"]


def test_links_between_documents_lead_somewhere(root: Path) -> None:
    for document in [root / "README.md", root / "DEVELOPERS.md", *sorted((root / "docs").glob("*.md"))]:
        for target in re.findall(r"\]\(([^)#:]+)\)", document.read_text(encoding="utf-8")):
            assert (document.parent / target).exists(), (document.name, target)
