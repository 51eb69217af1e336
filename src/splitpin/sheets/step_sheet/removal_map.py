"""The removal map: which component has to leave before which, drawn in layers from top to bottom.

Layers are those of E. G. Coffman and R. L. Graham (Acta Informatica 1 (1972) 200-213): each component below all that
leave before it, at most so many in a layer. A line that passes a layer gets a place of its own there, so that it never
runs through a box; within a layer, places follow the middle of what they hang from (K. Sugiyama and others, IEEE
Transactions on Systems, Man, and Cybernetics 11 (1981) 109-125). Both from memory. By hand: a lid, a pump and a fan
both after the lid: the lid above, pump and fan side by side below it, two lines.
"""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from textwrap import shorten, wrap
from typing import NamedTuple

from splitpin.records.plan import Plan
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.units import number

_WIDTH = 1000.0  # drawing units; the style sheet scales the drawing to the page
_MOST = 5  # boxes in a layer
_BOX, _HEIGHT = 184.0, 74.0
_GAP, _LEAST_GAP = 34.0, 10.0
_BETWEEN = 46.0  # from the bottom of one layer to the top of the next
_LANE = 12.0  # the width of the place of a line that passes a layer
_LETTERS, _LINES, _LEADING = 17, 3, 21.0  # the widest titles of 17 letters leave a margin in the box
_SWEEPS = 4  # passes down and up; more changed none of the example drawings

Node = tuple[str, int]  # a component and 0; or a line's end, with the layer that it passes


class Box(NamedTuple):
    """A component: its rectangle, the lines of its title, how it ends, and whether the job works on it."""

    x: str
    y: str
    middle: str
    lines: tuple[tuple[str, str], ...]  # height and text
    aside: bool
    worked: bool


class RemovalMap(NamedTuple):
    """The drawing. `edges` run from the bottom of one box to the top of another; `words` say the same as text."""

    width: str
    height: str
    box_width: str
    box_height: str
    boxes: tuple[Box, ...]
    edges: tuple[str, ...]
    words: str


def removal_map(plan: Plan, t: Words = ENGLISH) -> RemovalMap | None:
    """The removal map of `plan`; None where fewer than two components leave. Cost grows with components times lines."""
    opened = plan.opened.components
    if len(opened) < 2:
        return None
    after = reduced({row.id: row.after for row in opened})
    layer = layers(after)
    rows, chains = _places(after, layer)
    _untangle(rows, chains)
    width = max(_WIDTH, *(_row_width(row, _LEAST_GAP) for row in rows))
    x, y = _coordinates(rows, width)
    worked = {step.component for step in plan.steps if step.phase == "work"}
    boxes = []
    for row in opened:
        left, top = x[row.id, 0] - _BOX / 2, y[layer[row.id]]
        words = _fitted(row.title)
        first = top + _HEIGHT / 2 - (len(words) - 1) * _LEADING / 2 + 6
        lines = tuple((_figure(first + place * _LEADING), text) for place, text in enumerate(words))
        boxes.append(
            Box(_figure(left), _figure(top), _figure(x[row.id, 0]), lines, row.ends == "aside", row.id in worked)
        )
    titles = {row.id: row.title for row in opened}
    return RemovalMap(
        width=_figure(width),
        height=_figure(max(y) + _HEIGHT + 2),
        box_width=_figure(_BOX),
        box_height=_figure(_HEIGHT),
        boxes=tuple(boxes),
        edges=tuple(_path(chain, layer, x, y) for chain in chains),
        words="; ".join(_sentence(row.title, [titles[one] for one in after[row.id]], t) for row in opened),
    )


def reduced(after: Mapping[str, Sequence[str]]) -> dict[str, tuple[str, ...]]:
    """The same order with no line that others already say. The order must be without circles."""

    def all_before(name: str) -> set[str]:
        found: set[str] = set()
        for one in after[name]:
            found |= {one} | all_before(one)
        return found

    return {
        name: tuple(one for one in before if not any(one in all_before(other) for other in before if other != one))
        for name, before in after.items()
    }


def layers(after: Mapping[str, Sequence[str]]) -> dict[str, int]:
    """A layer for each component, below all of `after`, no layer with more than five. Ties go to the file's order."""
    waiting = list(after)
    layer: dict[str, int] = {}
    level = 0
    while waiting:
        ready = [name for name in waiting if all(one in layer for one in after[name])]
        followers = {name: _longest_tail(name, after) for name in ready}
        for name in sorted(ready, key=lambda one: -followers[one])[:_MOST]:
            layer[name] = level
            waiting.remove(name)
        level += 1
    return layer


def _longest_tail(name: str, after: Mapping[str, Sequence[str]]) -> int:
    return max((1 + _longest_tail(other, after) for other, before in after.items() if name in before), default=0)


def _places(after: Mapping[str, Sequence[str]], layer: Mapping[str, int]) -> tuple[list[list[Node]], list[list[Node]]]:
    """The places of each layer, and each line as the places it joins."""
    rows: list[list[Node]] = [[] for _ in range(max(layer.values()) + 1)]
    for name, level in layer.items():
        rows[level].append((name, 0))
    chains = []
    for name, before in after.items():
        for one in before:
            chain: list[Node] = [(one, 0)]
            for level in range(layer[one] + 1, layer[name]):
                place = (f"{one} > {name}", level)
                rows[level].append(place)
                chain.append(place)
            chains.append([*chain, (name, 0)])
    return rows, chains


def _untangle(rows: list[list[Node]], chains: list[list[Node]]) -> None:
    """Order each layer by the middle of its neighbours, down and up again."""
    links: dict[Node, dict[int, list[Node]]] = {}
    level_of = {node: level for level, row in enumerate(rows) for node in row}
    for chain in chains:
        for upper, lower in pairwise(chain):
            links.setdefault(lower, {}).setdefault(level_of[upper], []).append(upper)
            links.setdefault(upper, {}).setdefault(level_of[lower], []).append(lower)
    for sweep in range(_SWEEPS):
        levels = range(1, len(rows)) if sweep % 2 == 0 else range(len(rows) - 2, -1, -1)
        for level in levels:
            beside = level - 1 if sweep % 2 == 0 else level + 1
            place = {node: (at + 0.5) / len(rows[beside]) for at, node in enumerate(rows[beside])}
            own = {node: (at + 0.5) / len(rows[level]) for at, node in enumerate(rows[level])}
            middle = {}
            for node in rows[level]:
                near = [place[other] for other in links.get(node, {}).get(beside, [])]
                middle[node] = sum(near) / len(near) if near else own[node]
            rows[level].sort(key=lambda node: (middle[node], own[node]))


def _size(node: Node) -> float:
    return _LANE if node[1] else _BOX


def _row_width(row: list[Node], gap: float) -> float:
    return sum(map(_size, row)) + gap * (len(row) - 1)


def _coordinates(rows: list[list[Node]], width: float) -> tuple[dict[Node, float], list[float]]:
    """The middle of each place, each layer in the middle of the drawing; and the top of each layer."""
    x: dict[Node, float] = {}
    for row in rows:
        gap = _GAP if _row_width(row, _GAP) <= width else _LEAST_GAP
        left = (width - _row_width(row, gap)) / 2
        for node in row:
            x[node] = left + _size(node) / 2
            left += _size(node) + gap
    return x, [2 + level * (_HEIGHT + _BETWEEN) for level in range(len(rows))]


def _path(chain: list[Node], layer: Mapping[str, int], x: Mapping[Node, float], y: list[float]) -> str:
    """From the bottom of the first box, straight down past each layer between, to the top of the last."""
    first, *between, last = chain
    parts = [f"M{_figure(x[first])} {_figure(y[layer[first[0]]] + _HEIGHT)}"]
    for node in between:
        parts.append(f"L{_figure(x[node])} {_figure(y[node[1]])}V{_figure(y[node[1]] + _HEIGHT)}")
    parts.append(f"L{_figure(x[last])} {_figure(y[layer[last[0]]])}")
    return "".join(parts)


def _fitted(title: str) -> list[str]:
    lines = wrap(title, _LETTERS, break_on_hyphens=False)
    if len(lines) <= _LINES:
        return lines
    return [*lines[: _LINES - 1], shorten(" ".join(lines[_LINES - 1 :]), _LETTERS, placeholder="…")]


def _sentence(title: str, before: list[str], t: Words) -> str:
    if before:
        return t("{title} after {others}", title=title, others=t.listed(before))
    return t("{title} first", title=title)


def _figure(value: float) -> str:
    return number(round(value, 1))
