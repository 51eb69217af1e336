"""The fixed words of the documents in one language, with its way of writing numbers and dates."""

import datetime
import tomllib
from functools import cache
from importlib.resources import files
from typing import Any, Literal, get_args

Language = Literal["en", "de", "es"]
LANGUAGES: tuple[Language, ...] = get_args(Language)


class Words:
    """The words of one language. Raises ValueError for a language that the catalogue of words does not have."""

    def __init__(self, language: str) -> None:
        if language not in LANGUAGES:
            raise ValueError(f"the language is {language}; it can be {', '.join(LANGUAGES)}")
        self.language = language

    def __call__(self, key: str, **filled: object) -> str:
        """The words of `key`, braces filled. Raises KeyError for a key that is not there, or a brace left open."""
        text: Any = _catalogue()
        for part in key.split("."):
            text = text[part]
        words: str = text[self.language]
        return words.format_map(filled) if filled else words

    def group(self, name: str) -> dict[str, str]:
        """All words of one table, by the last part of their keys, braces not filled."""
        return {key: texts[self.language] for key, texts in _catalogue()[name].items()}

    def number(self, text: str) -> str:
        """A number in plain digits, with this language's decimal sign."""
        return text.replace(".", self("decimal"))

    def date(self, day: datetime.date) -> str:
        """A date in words."""
        return self("date", day=day.day, month=self("months").split()[day.month - 1], year=day.year)


@cache
def _catalogue() -> dict[str, Any]:
    return tomllib.loads(files("splitpin.sheets").joinpath("words.toml").read_text(encoding="utf-8"))
