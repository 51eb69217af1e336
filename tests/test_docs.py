"""The documents name what there is: every key of every file, every command, every room."""

import re
from pathlib import Path

import pytest
from pydantic import BaseModel
from tests.test_house import PIPELINE, ROOMS

from splitpin.records import assembly, catalogue, charges, disturbance, effort, firm, job, points, procedure
from splitpin.records import round as round_files
from splitpin.records.base import Record

LISTS = {"format", "place"}  # the first key of every file, and what the reader puts in


def records() -> list[type[BaseModel]]:
    found = []
    for module in (assembly, catalogue, charges, disturbance, effort, firm, job, points, procedure, round_files):
        for value in vars(module).values():
            if isinstance(value, type) and issubclass(value, Record) and value.__module__ == module.__name__:
                found.append(value)
    return found


@pytest.mark.parametrize("record", records(), ids=lambda record: record.__name__)
def test_every_key_stands_in_the_file_format(record: type[BaseModel], root: Path) -> None:
    text = (root / "docs" / "file-format.md").read_text(encoding="utf-8")
    named = set(re.findall(r"[a-z][a-z_]*", text))
    assert set(record.model_fields) - LISTS <= named


def test_the_rooms_stand_in_the_contributor_guide_in_their_order(root: Path) -> None:
    text = (root / "DEVELOPERS.md").read_text(encoding="utf-8")
    rooms = re.findall(r"^\| `([a-z/]+?)/?` \|", text, flags=re.MULTILINE)
    assert [room for room in rooms if "/" not in room] == list(ROOMS)
    assert [room.removeprefix("planning/") for room in rooms if "/" in room] == [*PIPELINE, "check"]


def test_links_between_documents_lead_somewhere(root: Path) -> None:
    for document in [root / "README.md", root / "DEVELOPERS.md", *sorted((root / "docs").glob("*.md"))]:
        for target in re.findall(r"\]\(([^)#:]+)\)", document.read_text(encoding="utf-8")):
            assert (document.parent / target).exists(), (document.name, target)
