"""Where in a file something stands."""

from typing import NamedTuple


class Place(NamedTuple):
    """A point in a file: path as the user gave it, line and column counted from 1; width of the marked text >= 1.

    `included_at` is the `path:line` of the include that brought it, where the file is a build.
    """

    path: str = ""
    line: int = 0
    column: int = 0
    width: int = 1
    included_at: str = ""

    def __str__(self) -> str:
        return f"{self.path}:{self.line}" if self.line else self.path


NOWHERE = Place()
