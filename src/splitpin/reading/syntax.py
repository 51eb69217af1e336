"""What a text that is not TOML is told."""

import re
import tomllib

from splitpin.notices import Notice, Place
from splitpin.reading.source import Source

_WHERE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_KEYS = re.compile(r"\(('[^)]*')\)")  # the standard library prints a dotted key as a tuple


def syntax_notice(error: tomllib.TOMLDecodeError | RecursionError, source: Source) -> Notice:
    """The reader's own reason in the words of these files, at the place that it gives."""
    if isinstance(error, RecursionError):
        return Notice("toml-syntax", "the brackets are nested too deeply to read", Place(source.path, 1, 1))
    reason = str(error)
    where = _WHERE.search(reason)
    assert where is not None, reason
    reason = reason[: where.start()]
    line, column = (int(where[1]), int(where[2])) if where[1] else _end(source.text)
    return Notice("toml-syntax", f"this is not TOML: {reason}", Place(source.path, line, column))


def _end(text: str) -> tuple[int, int]:
    lines = text.rstrip("\n").split("\n")
    return len(lines), max(1, len(lines[-1]))
