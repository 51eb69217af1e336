"""What the seconds of each step consist of, each element with its spread.

By hand: "Undo 4 screws: casing to frame." at a new place with another driver, 57 s, is a change of position of 8 s,
one tool picked up in 5 s, and four pieces of 11 s.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

from splitpin.planning.asked.expand import Wanted
from splitpin.planning.plant.doings import Work, id_of
from splitpin.planning.programme.acts import Line
from splitpin.planning.written.course import Course, Done
from splitpin.records.effort import ElementKind
from splitpin.records.words import HAND_OVER

KINDS: dict[ElementKind, str] = {
    "off": "pieces off",
    "on": "pieces on",
    "seal": "seals",
    "tool": "tools picked up",
    "move": "changes of position",
    "handling": "lifting off and back",
    "work": "the tasks",
    "procedure": "making safe, proving, handing over",
}
_ACTIONS: dict[str, ElementKind] = {
    "undo": "off",
    "remake": "on",
    "take": "handling",
    "fit": "handling",
    "work": "work",
    "seal": "seal",
}


class Element(NamedTuple):
    """Part of one step: planning mean (s) and log-spread. Elements with the same `draw` are short or long together."""

    step: int  # the step's number
    kind: ElementKind
    what: str  # id of the joint, component, tool, position, condition or proof
    seconds: float
    log_sd: float
    draw: str


def elements_of_act(done: Done, course: Course) -> Iterator[Element]:
    """The elements of one act: its set-up on the first step, then one for each line that takes time.

    Those of one step add up to its `seconds`. The pieces of one joint share a draw, and so do the lines of one task:
    what makes one stiff makes its neighbours stiff. Everything else is drawn for itself; the pace that all share is not
    part of it. Our own rule.
    """
    plant, spreads = course.plant, course.plant.library.time_spreads
    first = done.steps[0].n
    if done.slot.walked_s:
        place = done.act.position or ""
        yield Element(first, "move", place, done.slot.walked_s, spreads["move"].log_sd, f"move:{first}")
    for tool in done.slot.picked:
        seconds = plant.pickup_s(tool)
        if seconds:
            yield Element(first, "tool", tool, seconds, spreads["tool"].log_sd, f"tool:{first}:{tool}")
    for step, line in zip(done.steps, done.act.lines, strict=True):
        if line.seconds:
            kind = _ACTIONS.get(line.action, "procedure")
            what, draw, log_sd = _of_line(line, kind, done, course)
            yield Element(step.n, kind, what, line.seconds, log_sd, draw or f"{kind}:{step.n}")


def _of_line(line: Line, kind: ElementKind, done: Done, course: Course) -> tuple[str, str, float]:
    act = done.act
    joint = line.joint or act.joint or ""
    if kind in ("off", "on"):
        return joint, f"{kind}:{joint}", course.plant.fixing(course.plant.joint(joint)).log_spread
    if isinstance(act.part, Work):
        return act.component or joint, id_of(act.part), work_log_sd(act.part.wanted)
    spread = course.plant.library.time_spreads[kind].log_sd
    if kind == "seal":
        return joint, "", spread
    return act.component or act.condition or act.proof or HAND_OVER, "", spread


def work_log_sd(wanted: Wanted) -> float:
    """The log-spread of a task: that of the log-normal with the three-point mean and standard deviation."""
    spread = wanted.work.min
    mean, sd = three_point(spread.low, spread.mode, spread.high)
    return log_sd(mean, sd)


def three_point(low: float, mode: float, high: float) -> tuple[float, float]:
    """Mean (low + 4 mode + high) / 6 and standard deviation (high - low) / 6 of a three-point estimate, in its unit.

    Source: D. G. Malcolm and others, Operations Research 7 (1959) 646-669.
    """
    return (low + 4 * mode + high) / 6, (high - low) / 6


def log_sd(mean: float, sd: float) -> float:
    """The standard deviation of the logarithm of a log-normal with this mean (>= 0) and standard deviation."""
    return math.sqrt(math.log1p((sd / mean) ** 2)) if mean else 0.0
