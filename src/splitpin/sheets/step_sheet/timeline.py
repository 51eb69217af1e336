"""The time line: hands-on time as a solid bar, waits as thin lines under it, over a scale of minutes.

A drawing of fixed width in which every second of the visit has the same length. A wait is drawn in the highest lane
that is free where it begins; with the hands busy from 0 to 60 and a wait from 20 to 80, line and bar overlap by 40.
"""

from dataclasses import dataclass

from splitpin.records.plan import Plan
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.units import clock, number

_WIDTH = 1000.0  # drawing units; the style sheet scales the drawing to the page
_EDGE = 14.0  # room for half a scale figure at both ends
_BAR_TOP, _BAR_HEIGHT = 4.0, 22.0
_LANE_HEIGHT = 26.0  # a wait's line, and its label under it
_LABEL = 76.0  # the widest label
_SCALE_STEPS_S = (60, 120, 300, 600, 900, 1800, 3600, 7200, 14400)
_MOST_TICKS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A rectangle: left edge, top and width in drawing units."""

    x: str
    y: str
    width: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A line of text and where it is anchored."""

    x: str
    y: str
    text: str
    anchor: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeLine:
    """The drawing, with its size and every coordinate as printed."""

    width: str
    height: str
    bar_height: str
    busy: tuple[Bar, ...]
    waits: tuple[Bar, ...]
    wait_labels: tuple[Label, ...]
    ticks: tuple[Label, ...]
    scale_y: str
    tick_end_y: str
    left: str
    right: str


def time_line(plan: Plan, t: Words = ENGLISH) -> TimeLine | None:
    """The time line of `plan`; None where there is no time to draw."""
    end_s = max([plan.times.elapsed_s, *(s.start_s + s.seconds + s.wait_s for s in plan.steps)])
    if not plan.steps or end_s == 0:
        return None

    def x(seconds: int) -> float:
        return _EDGE + (_WIDTH - 2 * _EDGE) * seconds / end_s

    waits: list[Bar] = []
    labels: list[Label] = []
    lanes: list[float] = []
    for step in plan.steps:
        if not step.wait_s:
            continue
        begin = step.start_s + step.seconds
        left, right = x(begin), x(begin + step.wait_s)
        label_left = min(left, _WIDTH - _LABEL)  # under the beginning of its line, unless the page ends there
        lane = next((n for n, free_from in enumerate(lanes) if free_from <= label_left), len(lanes))
        lanes[lane : lane + 1] = [max(right, label_left + _LABEL)]
        top = _BAR_TOP + _BAR_HEIGHT + _LANE_HEIGHT * lane + 4
        waits.append(Bar(x=_figure(left), y=_figure(top), width=_figure(right - left)))
        labels.append(
            Label(
                x=_figure(left if label_left == left else _WIDTH),
                y=_figure(top + 19),
                text=t("step {numbers}", numbers=step.n),
                anchor="start" if label_left == left else "end",
            )
        )
    scale_y = _BAR_TOP + _BAR_HEIGHT + _LANE_HEIGHT * len(lanes) + 6
    apart = next((s for s in _SCALE_STEPS_S if end_s <= s * _MOST_TICKS), _SCALE_STEPS_S[-1])
    return TimeLine(
        width=_figure(_WIDTH),
        height=_figure(scale_y + 26),
        bar_height=_figure(_BAR_HEIGHT),
        busy=tuple(
            Bar(x=_figure(x(begin)), y=_figure(_BAR_TOP), width=_figure(x(end) - x(begin)))
            for begin, end in _busy_spans(plan)
        ),
        waits=tuple(waits),
        wait_labels=tuple(labels),
        ticks=tuple(
            Label(
                x=_figure(x(at)),
                y=_figure(scale_y + 22),
                text=clock(at) if at else "0",
                anchor="middle" if x(at) + _LABEL / 2 <= _WIDTH else "end",
            )
            for at in range(0, end_s + 1, apart)
        ),
        scale_y=_figure(scale_y),
        tick_end_y=_figure(scale_y + 6),
        left=_figure(x(0)),
        right=_figure(x(end_s)),
    )


def _busy_spans(plan: Plan) -> list[tuple[int, int]]:
    """Hands-on time as spans that do not touch each other."""
    spans: list[tuple[int, int]] = []
    for step in plan.steps:
        if not step.seconds:
            continue
        begin, end = step.start_s, step.start_s + step.seconds
        if spans and spans[-1][1] == begin:
            begin = spans.pop()[0]
        spans.append((begin, end))
    return spans


def _figure(value: float) -> str:
    return number(round(value, 1))
