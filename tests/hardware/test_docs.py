"""The page about hardware shows designations that can be read and marks that exist."""

import re
from pathlib import Path

from splitpin.hardware.designation import Designation
from splitpin.hardware.parser import parse
from splitpin.hardware.tables import MARKS


def test_every_designation_on_the_page_is_read(root: Path) -> None:
    page = (root / "docs" / "hardware.md").read_text(encoding="utf-8")
    shown = re.findall(r"[`']((?:ISO|DIN|EN|IEC) [\d-]+(?:/DIN \d+)? - [^`']+)[`']", page)
    assert len(shown) >= 14
    for text in shown:
        assert isinstance(parse(text), Designation), text


def test_every_mark_is_explained(root: Path) -> None:
    page = (root / "docs" / "hardware.md").read_text(encoding="utf-8")
    assert re.findall(r"^\| `([a-z ]+)` \|", page, re.M) == list(MARKS)
