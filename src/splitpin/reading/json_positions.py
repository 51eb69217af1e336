"""Where every key and value of a JSON text stands, as the TOML scanner tells it.

It runs only on text that the standard library's reader has accepted, so it checks one thing alone, which that reader
lets pass: that no name is given twice. By hand: in `{"a": [1]}` the root holds `a` (key 1..4, value 6..9), whose first
item is 7..8.
"""

import json
import re

from splitpin.reading.positions import Spot

_SPACE = re.compile(r"[ \t\n\r]*")
_STRING = re.compile(r'"(?:[^"\\]|\\.)*"', re.DOTALL)
_PLAIN = re.compile(r"[^,\]}\s]+")


class GivenTwice(ValueError):
    """A name stands twice in one pair of braces; the second time at `text[start:end]`."""

    def __init__(self, name: str, start: int, end: int) -> None:
        super().__init__(name)
        self.name, self.start, self.end = name, start, end


def scan_json(text: str) -> Spot:
    """The root's spot. Cost grows with the length of the text; as deep as the text is nested. Raises GivenTwice."""
    start = _after_space(text, 0)
    return _value(text, start, start, start)


def _after_space(text: str, at: int) -> int:
    found = _SPACE.match(text, at)
    assert found is not None
    return found.end()


def _string_end(text: str, at: int) -> int:
    found = _STRING.match(text, at)
    assert found is not None
    return found.end()


def _value(text: str, at: int, key: int, key_end: int) -> Spot:
    if text[at] == "{":
        return _table(text, at, key, key_end)
    if text[at] == "[":
        return _list(text, at, key, key_end)
    if text[at] == '"':
        return Spot(key, key_end, at, _string_end(text, at))
    found = _PLAIN.match(text, at)
    assert found is not None
    return Spot(key, key_end, at, found.end())


def _table(text: str, at: int, key: int, key_end: int) -> Spot:
    inside: dict[str, Spot] = {}
    here = _after_space(text, at + 1)
    while text[here] != "}":
        name_end = _string_end(text, here)
        start = _after_space(text, _after_space(text, name_end) + 1)
        spot = _value(text, start, here, name_end)
        name = json.loads(text[here:name_end])
        if name in inside:
            raise GivenTwice(name, here, name_end)
        inside[name] = spot
        here = _after_space(text, spot.end)
        if text[here] == ",":
            here = _after_space(text, here + 1)
    return Spot(key, key_end, at, here + 1, inside)


def _list(text: str, at: int, key: int, key_end: int) -> Spot:
    items: list[Spot] = []
    here = _after_space(text, at + 1)
    while text[here] != "]":
        spot = _value(text, here, here, here)
        items.append(Spot(spot.start, spot.end, spot.start, spot.end, spot.inside))
        here = _after_space(text, spot.end)
        if text[here] == ",":
            here = _after_space(text, here + 1)
    return Spot(key, key_end, at, here + 1, items)
