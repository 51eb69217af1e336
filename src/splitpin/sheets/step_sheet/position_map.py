"""The position map: where one stands when, a lane for each position over the same minutes as the time line.

A step without a position is done where one stands. By hand: 60 s at the front, 120 s at the underside, 30 s at the
front: two lanes, two bars in the first, and two changes of position.
"""

from typing import NamedTuple

from splitpin.records.plan import Plan
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.wording import spoken
from splitpin.units import number

_WIDTH = 1000.0  # drawing units; the style sheet scales the drawing to the page
_EDGE = 14.0
_LANE, _BAR = 30.0, 18.0


class LaneBar(NamedTuple):
    """One stay at a position."""

    x: str
    y: str
    width: str


class Lane(NamedTuple):
    """A position: its words, written above its line, and the stays at it."""

    title: str
    y: str
    line_y: str
    bars: tuple[LaneBar, ...]


class PositionMap(NamedTuple):
    """The drawing. `changes` says how often the position changes."""

    width: str
    height: str
    bar_height: str
    left: str
    right: str
    lanes: tuple[Lane, ...]
    changes: str


def position_map(plan: Plan, t: Words = ENGLISH) -> PositionMap | None:
    """The position map of `plan`; None where everything is done from one place."""
    stays = _stays(plan)
    positions = list(dict.fromkeys(position for position, _, _ in stays))
    if len(positions) < 2:
        return None
    end = max([plan.times.elapsed_s, *(stay[2] for stay in stays)])

    def x(seconds: int) -> float:
        return _EDGE + (_WIDTH - 2 * _EDGE) * seconds / end

    lanes = []
    for level, position in enumerate(positions):
        top = 20 + level * (_LANE + 20)
        bars = tuple(
            LaneBar(_figure(x(begin)), _figure(top), _figure(max(x(until) - x(begin), 1.5)))
            for where, begin, until in stays
            if where == position
        )
        lanes.append(Lane(spoken(position), _figure(top - 5), _figure(top + _BAR), bars))
    return PositionMap(
        width=_figure(_WIDTH),
        height=_figure(len(positions) * (_LANE + 20) - 10),
        bar_height=_figure(_BAR),
        left=_figure(x(0)),
        right=_figure(x(end)),
        lanes=tuple(lanes),
        changes=t("1 change of position") if len(stays) == 2 else t("{n} changes of position", n=len(stays) - 1),
    )


def _stays(plan: Plan) -> list[tuple[str, int, int]]:
    """Position, from, until: a new stay wherever the position changes; steps before the first position are left out."""
    stays: list[tuple[str, int, int]] = []
    for step in plan.steps:
        until = step.start_s + step.seconds
        position = step.position or (stays[-1][0] if stays else None)
        if position is None:
            continue
        if stays and stays[-1][0] == position:
            stays[-1] = (position, stays[-1][1], until)
        else:
            stays.append((position, step.start_s, until))
    return stays


def _figure(value: float) -> str:
    return number(round(value, 1))
