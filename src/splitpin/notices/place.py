"""Where in a file something stands."""

from __future__ import annotations

from collections.abc import Callable
from functools import total_ordering


@total_ordering
class Place:
    """A point in a file: path as the user gave it, line and column counted from 1; width of the marked text >= 1.

    `included_at` is the `path:line` of the include that brought it, where the file is a build. A place never changes.
    """

    __slots__ = ("_known", "_look")

    def __init__(self, path: str = "", line: int = 0, column: int = 0, width: int = 1, included_at: str = "") -> None:
        self._known: tuple[str, int, int, int, str] | None = (path, line, column, width, included_at)
        self._look: Callable[[], Place] | None = None

    @classmethod
    def looked_up(cls, look: Callable[[], Place]) -> Place:
        """A place that is looked for when it is first asked for: most places of a file never are."""
        place = cls()
        place._known, place._look = None, look
        return place

    @property
    def _all(self) -> tuple[str, int, int, int, str]:
        if self._known is None:
            assert self._look is not None
            self._known, self._look = self._look()._all, None
        return self._known

    @property
    def path(self) -> str:
        """The file as it is named in print."""
        return self._all[0]

    @property
    def line(self) -> int:
        """Counted from 1; 0 is the file as a whole."""
        return self._all[1]

    @property
    def column(self) -> int:
        """Counted from 1."""
        return self._all[2]

    @property
    def width(self) -> int:
        """Characters that are meant."""
        return self._all[3]

    @property
    def included_at(self) -> str:
        """The include that brought it."""
        return self._all[4]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Place) and self._all == other._all

    def __lt__(self, other: Place) -> bool:
        return self._all < other._all

    def __hash__(self) -> int:
        return hash(self._all)

    def __repr__(self) -> str:
        return f"Place{self._all}"

    def __str__(self) -> str:
        return f"{self.path}:{self.line}" if self.line else self.path


NOWHERE = Place()
