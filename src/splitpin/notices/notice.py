"""What the tool has to say about a file or a plan: a value, never an exception."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from splitpin.notices.codes import CODES
from splitpin.notices.place import NOWHERE, Place

Severity = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True)
class Notice:
    """One finding: a code of `codes.CODES`, a sentence, where it stands, and what to do about it."""

    code: str
    message: str
    place: Place = NOWHERE
    hint: str = ""

    def __post_init__(self) -> None:
        if self.code not in CODES:
            raise ValueError(f"{self.code} is not a notice code")

    @property
    def severity(self) -> Severity:
        """The severity that the list of codes gives this code."""
        return CODES[self.code].severity

    @property
    def sort_key(self) -> tuple[Place, str, str]:
        """Path, line, column, code, message: the fixed order of every list of notices."""
        return self.place, self.code, self.message

    def as_json(self) -> dict[str, object]:
        """The same fields as the printed form, for `--json`."""
        return {
            "code": self.code,
            "severity": self.severity,
            "path": self.place.path,
            "line": self.place.line,
            "column": self.place.column,
            "message": self.message,
            "hint": self.hint,
            "included_at": self.place.included_at,
        }


def in_order(notices: Iterable[Notice]) -> tuple[Notice, ...]:
    """The notices sorted by place, code and message, each once."""
    return tuple(sorted(set(notices), key=lambda notice: notice.sort_key))


def has_errors(notices: Iterable[Notice]) -> bool:
    """True when at least one notice is an error."""
    return any(notice.severity == "error" for notice in notices)
