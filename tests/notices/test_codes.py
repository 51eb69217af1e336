"""Every code is explained in the guide to the notices, and the guide explains nothing else."""

import re
from pathlib import Path

import pytest

from splitpin.notices import CODES, Notice


def test_the_guide_explains_every_code_with_its_severity_in_the_order_of_the_list(root: Path) -> None:
    guide = (root / "docs" / "notices.md").read_text(encoding="utf-8")
    headings = re.findall(r"^### `([a-z0-9-]+)` \((\w+)\)$", guide, re.MULTILINE)
    assert headings == [(code, entry.severity) for code, entry in CODES.items()]


def test_every_explanation_says_something(root: Path) -> None:
    guide = (root / "docs" / "notices.md").read_text(encoding="utf-8")
    for section in re.split(r"^##.*$", guide, flags=re.MULTILINE)[2:]:
        assert not section.strip() or len(section.split()) >= 8


def test_the_example_in_the_guide_is_a_notice_as_it_is_printed(root: Path) -> None:
    guide = (root / "docs" / "notices.md").read_text(encoding="utf-8")
    case = (root / "tests" / "cases" / "bad" / "unknown-id-in-job.expected").read_text(encoding="utf-8")
    example = guide.split("```")[1].strip("\n").split("\n")
    assert [line for line in example if line not in case.split("\n")] == [example[0]]
    assert example[0].split(": ", 1)[1] in case


def test_a_notice_has_a_code_of_the_list() -> None:
    with pytest.raises(ValueError, match=r"^no-such-code is not a notice code$"):
        Notice("no-such-code", "message")


def test_every_code_is_lower_kebab_and_has_a_meaning() -> None:
    for code, entry in CODES.items():
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", code)
        assert entry.meaning
