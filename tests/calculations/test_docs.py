"""The guide names every reading, each with its inputs, formula, source and limits as the code has them."""

import re
from pathlib import Path

import pytest

from splitpin.calculations.answer import Answer, Line, take
from splitpin.calculations.register import READINGS


@pytest.fixture(scope="module")
def guide(root: Path) -> dict[str, str]:
    text = (root / "docs" / "readings.md").read_text(encoding="utf-8")
    _, *rest = re.split(r"^### `([a-z0-9-]+)`$", text, flags=re.MULTILINE)
    return dict(zip(rest[::2], rest[1::2], strict=True))


def test_every_reading_has_its_section_in_the_order_of_the_list(guide: dict[str, str]) -> None:
    assert list(guide) == list(READINGS)


@pytest.mark.parametrize("name", READINGS)
def test_a_section_says_what_the_reading_says(name: str, guide: dict[str, str]) -> None:
    reading, text = READINGS[name], guide[name]
    rows = re.findall(r"^\| `(\w+)` \| (.*) \| (.*) \| (.*) \|$", text, flags=re.MULTILINE)
    assert rows == [(one.name, one.title, one.allowed, one.default or "none: must be given") for one in reading.inputs]
    assert f"Formula: {reading.formula}.\n" in text
    assert f"Source: {reading.source}.\n" in text
    assert all(result.title in text for result in reading.results)
    assert set(re.findall(r"against `([a-z0-9-]+)`", text)) == {one.limit for one in reading.results if one.limit}
    assert (f"`{reading.decides}`" in text) is (reading.decides is not None)


def test_the_example_at_the_head_is_true() -> None:
    found = take(READINGS["co-co2-ratio"], ["co_ppm=361", "co2_percent=9.0"], {})
    assert isinstance(found, Answer)
    assert isinstance(found.lines[0], Line) and found.lines[0].text == "0.00401"
