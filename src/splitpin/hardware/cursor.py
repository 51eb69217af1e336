"""A place in the text of a designation, and the faults met on the way."""

import re
from dataclasses import dataclass, field

from splitpin.hardware.fault import Fault

GAP = re.compile(r"[\s,;–—-]*")
TOKEN = re.compile(r"A[1-5]-\d\w*|\d+\s*HV\b|\d+,\d\b|[^\s,;–—-]+", re.I)


@dataclass(slots=True)
class Cursor:
    """Where reading stands (`at`, from 0) in one part of a designation that begins at `base` of the whole text."""

    text: str
    base: int = 0
    at: int = 0
    faults: list[Fault] = field(default_factory=list)

    @property
    def end(self) -> int:
        """Behind the last character that is not blank."""
        return len(self.text.rstrip())

    def fault(self, start: int, end: int, message: str, hint: str) -> None:
        """Keep a fault from `start` to `end`; at least one character is marked."""
        self.faults.append(Fault(self.base + start, max(end - start, 1), message, hint))

    def skip_gap(self) -> None:
        """Go past blanks, commas and dashes."""
        found = GAP.match(self.text, self.at)
        assert found is not None  # the pattern matches nothing at all, too
        self.at = found.end()

    def match(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """The pattern at this place; when it is there, reading goes on behind it."""
        found = pattern.match(self.text, self.at)
        if found is not None:
            self.at = found.end()
        return found

    def token(self) -> re.Match[str] | None:
        """The next word, number or class; None at the end."""
        return self.match(TOKEN)
