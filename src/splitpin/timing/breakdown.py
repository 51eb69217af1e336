"""Where the time goes: expected hands-on seconds by phase, by kind of element and by cause, and idle time by cause.

Every table adds up to the whole. Figures are means: on this site, with allowance and pace; what may go wrong stands in
a row of its own.
"""

from typing import NamedTuple

from splitpin.planning.written.course import Course
from splitpin.records.effort import ElementKind
from splitpin.records.plan import Phase
from splitpin.timing.causes import SITE, Cause, Causes
from splitpin.timing.elements import KINDS
from splitpin.timing.estimate import Estimate


class CauseTime(NamedTuple):
    """What one cause takes, and on which steps: hands-on, and idle time for the waits it brings."""

    cause: Cause
    hands_on_s: float
    idle_s: float
    steps: tuple[int, ...]


class Breakdown(NamedTuple):
    """Expected seconds. Phases in the order of the visit, kinds in that of the elements, causes the longest first."""

    phases: dict[Phase, float]
    kinds: dict[ElementKind, float]
    causes: tuple[CauseTime, ...]
    site_s: float  # what the site costs once
    events_s: float


def breakdown(course: Course, found: Estimate) -> Breakdown:
    """The breakdown of an estimate of this course."""
    factor = found.allowance.factor * found.pace.mean
    by_step: dict[int, float] = {}
    kinds = dict.fromkeys(KINDS, 0.0)
    for element in found.elements:
        by_step[element.step] = by_step.get(element.step, 0.0) + element.seconds * factor
        if element.step:
            kinds[element.kind] += element.seconds * factor
    phases: dict[Phase, float] = {}
    for step in (step for done in course.done for step in done.steps):
        phases[step.phase] = phases.get(step.phase, 0.0) + by_step.get(step.n, 0.0)
    return Breakdown(
        phases=phases,
        kinds={kind: seconds for kind, seconds in kinds.items() if seconds},
        causes=_by_cause(course, by_step),
        site_s=by_step.get(0, 0.0),
        events_s=sum(event.expected_s for event in found.events) * found.pace.mean,
    )


def _by_cause(course: Course, by_step: dict[int, float]) -> tuple[CauseTime, ...]:
    causes = Causes(course)
    idle = _idle(course)
    found: dict[str, CauseTime] = {}
    for place, done in enumerate(course.done):
        own = causes.of(done)
        hands_on = sum(by_step.get(step.n, 0.0) for step in done.steps) / len(own)
        for cause in own:
            known = found.get(cause.id) or CauseTime(cause, 0.0, 0.0, ())
            steps = (*known.steps, *(step.n for step in done.steps))
            found[cause.id] = known._replace(hands_on_s=known.hands_on_s + hands_on, steps=steps)
        for waited, seconds in idle.get(place, ()):
            blamed = causes.of(course.done[waited])
            for cause in blamed:
                known = found[cause.id]
                found[cause.id] = known._replace(idle_s=known.idle_s + seconds / len(blamed))
    if 0 in by_step:
        found[SITE.id] = CauseTime(SITE, by_step[0], 0.0, ())
    return tuple(sorted(found.values(), key=lambda row: -row.hands_on_s - row.idle_s))


def _idle(course: Course) -> dict[int, list[tuple[int, float]]]:
    """By place of the act that stood still: the place of the act whose wait ended last, and the plan's idle seconds."""
    place_of = {done.act: place for place, done in enumerate(course.done)}
    found: dict[int, list[tuple[int, float]]] = {}
    end = 0
    for place, done in enumerate(course.done):
        idle = done.steps[0].start_s - end
        end = done.steps[-1].start_s + done.steps[-1].seconds
        if idle > 0 and done.slot.waits_for:
            last = max(done.slot.waits_for, key=lambda act: _wait_end(course, place_of[act]))
            found[place] = [(place_of[last], float(idle))]
    return found


def _wait_end(course: Course, place: int) -> int:
    step = course.done[place].steps[-1]
    return step.start_s + step.seconds + step.wait_s
