"""Where every key and value of a TOML text stands.

The TOML reader gives values without their places. This scanner gives the places, and runs only on text
that reader has accepted, so it checks nothing: a bracket is closed, a key is unique, a string ends.
By hand: in `a.b = [1, {c = "x"}]` the root holds `a`, which holds `b` (value 6..20), whose second item (10..19) holds
`c` (value 15..18).
"""

import re
from bisect import bisect_right
from dataclasses import dataclass
from functools import cached_property

from splitpin.notices import Place

# Most lines of most files: a bare key, one plain value, perhaps a comment. One match instead of ten.
_PLAIN_LINE = re.compile(
    r"""[ \t]*([A-Za-z0-9_-]+)[ \t]*=[ \t]*("[^"\\\n]*"(?!")|[A-Za-z0-9+.:_-]+)[ \t]*(?:\#[^\n]*)?(?:\n|\Z)"""
)
_BARE_PAIR = re.compile(r"([A-Za-z0-9_-]+)[ \t]*=[ \t]*")
_SPACE = re.compile(r"[ \t]*")
_BLANK = re.compile(r"(?:[ \t\n]+|\#[^\n]*)*")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_BARE_VALUE = re.compile(r"[^,\]}#\n]*[^,\]}#\n \t]")
_STRING = re.compile(
    r'"""(?:[^"\\]|\\.|"(?!""))*"""("{0,2})'
    r"|'''(?:[^']|'(?!''))*'''('{0,2})"
    r'|"(?:[^"\\]|\\.)*"'
    r"|'[^']*'",
    re.DOTALL,
)
_ESCAPE = re.compile(r"\\(?:u([0-9a-fA-F]{4})|U([0-9a-fA-F]{8})|x([0-9a-fA-F]{2})|(.))", re.DOTALL)
_ESCAPED = {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r", "e": "\x1b", '"': '"', "\\": "\\"}


@dataclass(slots=True, eq=False)
class Spot:
    """Offsets of a key and of its value: `text[key:key_end]`, `text[start:end]`.

    `inside` holds the spots of a table by key, or of a list in order, or None for a plain value. The value of a table
    with a header is that header; of a table made by dotted keys, the key that made it. An item of a list, and the
    root, have no key of their own: theirs is their value. `written` says that `text[start:end]` is the value whole.
    """

    key: int
    key_end: int
    start: int
    end: int
    inside: "dict[str, Spot] | list[Spot] | None" = None
    written: bool = True

    def child(self, step: str | int) -> "Spot | None":
        """The spot of a table's key or a list's item; None where there is none."""
        if isinstance(self.inside, dict):
            return self.inside.get(step) if isinstance(step, str) else None
        if isinstance(self.inside, list) and isinstance(step, int) and 0 <= step < len(self.inside):
            return self.inside[step]
        return None


def scan(text: str) -> Spot:
    """The root's spot, from which all others are reached. Cost grows with the length of the text; 3000 lines in ~5 ms.

    `text` has `\\n` line ends and no byte-order mark, and `tomli.loads` takes it.
    """
    return _Scanner(text).root


NO_SPOT = Spot(0, 0, 0, 0, {}, written=False)  # of a text that cannot be scanned


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.root = Spot(0, 0, 0, 0, {}, written=False)
        table: dict[str, Spot] = _table(self.root)
        at = 0
        while True:
            plain = _PLAIN_LINE.match(text, at)
            if plain:
                table[plain[1]] = Spot(*plain.span(1), *plain.span(2))
                at = plain.end()
                continue
            at = self._past(_BLANK, at)
            if at == len(text):
                return
            if text[at] == "[":
                table, at = self._header(at)
            else:
                at = self._pair(at, table)

    def _past(self, pattern: re.Pattern[str], at: int) -> int:
        """The end of what the pattern matches there; the text is sound, so it does."""
        found = pattern.match(self.text, at)
        assert found is not None
        return found.end()

    def _header(self, at: int) -> tuple[dict[str, Spot], int]:
        """The table that a header opens, and the offset after it."""
        brackets = 2 if self.text.startswith("[[", at) else 1
        keys, after = self._keys(at + brackets)
        after += brackets
        here = self.root
        for name, start, end in keys[:-1]:
            here = _last(_table(here).setdefault(name, Spot(start, end, start, end, {}, written=False)))
        name, start, end = keys[-1]
        spot = Spot(start, end, at, after, {}, written=False)
        siblings = _table(here)
        if brackets == 2:
            rows = siblings.setdefault(name, Spot(start, end, at, after, [], written=False)).inside
            assert isinstance(rows, list)
            rows.append(spot)
        elif name in siblings:  # [a.b] came before [a]: its place is the header that names it
            spot.inside = siblings[name].inside
            siblings[name] = spot
        else:
            siblings[name] = spot
        return _table(spot), after

    def _keys(self, at: int) -> tuple[list[tuple[str, int, int]], int]:
        """The parts of a dotted key with their offsets, and the offset of what follows it."""
        parts = []
        while True:
            start = self._past(_SPACE, at)
            quoted = self.text[start] in "\"'"
            end = self._past(_STRING if quoted else _BARE_KEY, start)
            name = self.text[start:end]
            parts.append((_unquoted(name) if quoted else name, start, end))
            at = self._past(_SPACE, end)
            if self.text[at] != ".":
                return parts, at
            at += 1

    def _pair(self, at: int, table: dict[str, Spot]) -> int:
        """A key, `=` and a value put into the table; the offset after it."""
        bare = _BARE_PAIR.match(self.text, at)
        if bare:
            name, start, end, at = bare[1], bare.start(1), bare.end(1), bare.end()
        else:
            keys, at = self._keys(at)
            for name, start, end in keys[:-1]:
                table = _table(table.setdefault(name, Spot(start, end, start, end, {}, written=False)))
            name, start, end = keys[-1]
            at = self._past(_SPACE, at + 1)
        value = self._value(at)
        value.key, value.key_end = start, end
        table[name] = value
        return value.end

    def _value(self, at: int) -> Spot:
        first = self.text[at]
        if first in "\"'":
            end = self._past(_STRING, at)
            return Spot(at, end, at, end)
        if first == "[":
            items: list[Spot] = []
            end = self._past(_BLANK, at + 1)
            while self.text[end] != "]":
                items.append(self._value(end))
                end = self._past_comma(items[-1].end)
            return Spot(at, end + 1, at, end + 1, items)
        if first == "{":
            table: dict[str, Spot] = {}
            end = self._past(_BLANK, at + 1)
            while self.text[end] != "}":
                end = self._past_comma(self._pair(end, table))
            return Spot(at, end + 1, at, end + 1, table)
        end = self._past(_BARE_VALUE, at)
        return Spot(at, end, at, end)

    def _past_comma(self, at: int) -> int:
        at = self._past(_BLANK, at)
        return self._past(_BLANK, at + 1) if self.text[at] == "," else at


def _table(spot: Spot) -> dict[str, Spot]:
    assert isinstance(spot.inside, dict)
    return spot.inside


def _last(spot: Spot) -> Spot:
    """A header below a list of tables goes on in its last table."""
    return spot.inside[-1] if isinstance(spot.inside, list) else spot


def _unquoted(key: str) -> str:
    if key[0] == "'":
        return key[1:-1]
    return _ESCAPE.sub(_character, key[1:-1])


def _character(escape: re.Match[str]) -> str:
    code = escape[1] or escape[2] or escape[3]
    return chr(int(code, 16)) if code else _ESCAPED[escape[4]]


class Lines:
    """Offsets of one text turned into places of its path; builds that follow it keep their paths.

    `included_at` is the `path:line` of the include, where the text itself is a build's.
    """

    def __init__(
        self, path: str, text: str, included_at: str = "", more: "tuple[tuple[int, str, str], ...]" = ()
    ) -> None:
        self.path = path
        self.text = text
        self.included_at = included_at
        self._more = more  # where each text that follows begins, its path, and the include that brought it

    def followed_by(self, other: "Lines") -> "Lines":
        """Both texts as one; a place in the second is one of its own file."""
        text = self.text if self.text.endswith("\n") else self.text + "\n"
        more = (*self._more, (len(text), other.path, other.included_at))
        return Lines(self.path, text + other.text, self.included_at, more)

    @cached_property
    def _starts(self) -> list[int]:
        return [0, *(found.end() for found in re.finditer("\n", self.text))]

    def offset(self, line: int, column: int) -> int:
        """Where a line and a column of the whole text, counted from 1, begin."""
        return self._starts[line - 1] + column - 1

    def place(self, start: int, end: int) -> Place:
        """The place of `text[start:end]`, marked as far as its first line goes. Cost: logarithm of the lines."""
        line = bisect_right(self._starts, start)
        column = start - self._starts[line - 1] + 1
        stop = self._starts[line] - 1 if line < len(self._starts) else len(self.text)
        width = max(1, min(end, stop) - start)
        here = (0, self.path, self.included_at)
        begins, path, included_at = next((text for text in reversed(self._more) if text[0] <= start), here)
        return Place(path, line - bisect_right(self._starts, begins) + 1, column, width, included_at)
