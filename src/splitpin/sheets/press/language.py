"""The fixed words of the documents in one language, with its way of writing numbers and dates.

The English text is the name of each: English needs no catalogue, and a text that the catalogue lacks is an error in any
other language.
"""

import datetime
from functools import cache
from typing import Any, Literal, get_args

Language = Literal["en", "de", "es"]
LANGUAGES: tuple[Language, ...] = get_args(Language)

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


class Words:
    """The words of one language. Raises ValueError for a language that the catalogue of words does not have."""

    def __init__(self, language: str) -> None:
        if language not in LANGUAGES:
            raise ValueError(f"the language is {language}; it can be {', '.join(LANGUAGES)}")
        self.language = language

    def __call__(self, english: str, /, **filled: object) -> str:
        """The text that is `english` in English, braces filled. Raises KeyError where the catalogue lacks it."""
        text = english if self.language == "en" else _catalogue()["words"][english][self.language]
        return text.format_map(filled) if filled else text

    def number(self, text: str) -> str:
        """A number in plain digits, with this language's decimal sign."""
        return text if self.language == "en" else text.replace(".", self._written("decimal"))

    def share(self, fraction: float, places: int = 0) -> str:
        """A part of one in per cent, whole or with decimals: `35%`, `35 %`."""
        text = f"{fraction * 100:.{places}f}"
        return f"{text}%" if self.language == "en" else f"{self.number(text)}\N{NO-BREAK SPACE}%"

    def money(self, text: str) -> str:
        """An amount written `1,234.50`, with this language's signs."""
        if self.language == "en":
            return text
        return text.translate({ord(","): self._written("grouping"), ord("."): self._written("decimal")})

    def date(self, day: datetime.date) -> str:
        """`Wed 25 Nov 2026`, whatever the machine is set to."""
        if self.language == "en":
            return f"{_DAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"
        weekday, month = (
            self._written("weekdays").split()[day.weekday()],
            self._written("months").split()[day.month - 1],
        )
        return self._written("date").format(weekday=weekday, day=day.day, month=month, year=day.year)

    def listed(self, words: list[str]) -> str:
        """`a, b and c`."""
        if len(words) < 2:
            return "".join(words)
        return self("{many} and {last}", many=", ".join(words[:-1]), last=words[-1])

    def _written(self, what: str) -> str:
        found: str = _catalogue()["written"][what][self.language]
        return found


@cache
def _catalogue() -> dict[str, Any]:
    import tomllib  # English does without
    from importlib.resources import files

    return tomllib.loads(files("splitpin.sheets").joinpath("press/words.toml").read_text(encoding="utf-8"))


ENGLISH = Words("en")
