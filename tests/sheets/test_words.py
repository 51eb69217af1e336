"""Every fixed word stands in every language, with the same blanks, and nothing asks for a word that is not there."""

import re
import string
import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from splitpin import sheets
from splitpin.sheets.language import LANGUAGES, Words

ROOM = Path(str(sheets.__file__)).parent
CATALOGUE: dict[str, Any] = tomllib.loads((ROOM / "words.toml").read_text(encoding="utf-8"))


def entries(table: dict[str, Any], at: str = "") -> dict[str, dict[str, str]]:
    if all(isinstance(value, str) for value in table.values()):
        return {at: table}
    found: dict[str, dict[str, str]] = {}
    for key, value in table.items():
        found |= entries(value, f"{at}.{key}".lstrip("."))
    return found


ENTRIES = entries(CATALOGUE)


def blanks(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


@pytest.mark.parametrize("key", sorted(ENTRIES))
def test_a_word_stands_in_every_language_with_the_same_blanks(key: str) -> None:
    texts = ENTRIES[key]
    assert set(texts) == set(LANGUAGES)
    assert all(text.strip() for text in texts.values())
    assert len({frozenset(blanks(text)) for text in texts.values()}) == 1


def test_templates_and_modules_ask_only_for_words_that_are_there() -> None:
    asked = set()
    for path in (*(ROOM / "templates").glob("*.j2"), *ROOM.glob("*.py")):
        asked |= set(re.findall(r"\b(?:t|words)\(\s*\"([a-z_.]+)\"", path.read_text(encoding="utf-8")))
    assert asked <= set(ENTRIES)
    script = (ROOM / "templates" / "pocket.js").read_text(encoding="utf-8")
    assert {f"pocket.{name}" for name in re.findall(r"\bwords\.(\w+)", script)} <= set(ENTRIES)


def test_no_word_is_left_over() -> None:
    text = "".join(
        path.read_text(encoding="utf-8")
        for path in (*(ROOM / "templates").glob("*.j2"), *ROOM.glob("*.py"), ROOM / "templates" / "pocket.js")
    )
    unused = {key for key in ENTRIES if f'"{key}"' not in text and f"words.{key.split('.')[-1]}" not in text}
    assert unused == set()


def test_a_language_that_is_not_there_is_refused() -> None:
    with pytest.raises(ValueError, match="fr; it can be en, de, es"):
        Words("fr")


def test_numbers_and_dates_are_written_as_the_language_does() -> None:
    day = date(2026, 11, 5)
    assert [Words(name).date(day) for name in LANGUAGES] == [
        "5 November 2026",
        "5. November 2026",
        "5 de noviembre de 2026",
    ]
    assert [Words(name).number("0.004") for name in LANGUAGES] == ["0.004", "0,004", "0,004"]
