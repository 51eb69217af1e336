"""What may go wrong on a visit: which steps can bring it, how likely it is, what it then costs.

By hand: a fixing seizes with 2 % for each piece; a joint of four brings it with 1 - 0.98^4 = 7.8 %. Two such joints
bring it at least once with 1 - 0.98^8 = 14.9 %.
"""

from collections.abc import Iterator
from typing import NamedTuple

from splitpin.planning.plant.doings import Make
from splitpin.planning.programme.acts import Prove
from splitpin.planning.written.course import Course, Done
from splitpin.records.effort import Event
from splitpin.timing.elements import log_sd, three_point
from splitpin.timing.moments import Moments, of_lognormal, of_raw, perhaps, total
from splitpin.units import SECONDS_PER_MINUTE

_NEARLY_SURE = 1 - 1e-9  # no chance is 1, so that the case in which nothing happens can always be reckoned from


class Occasion(NamedTuple):
    """One act that may bring an event: its first step, the chance, and the event's row."""

    step: int
    chance: float
    event: Event

    @property
    def cost(self) -> Moments:
        """Hands-on time when it happens, at planning pace."""
        return of_lognormal(*cost_of(self.event))


class Case(NamedTuple):
    """What happened: an event's id, "" for nothing, "more" for two things or more; its chance and what it costs."""

    name: str
    chance: float
    cost: Moments


def cost_of(event: Event) -> tuple[float, float]:
    """Mean seconds and log-spread of what an event costs."""
    mean, sd = three_point(event.min.low, event.min.mode, event.min.high)
    return mean * SECONDS_PER_MINUTE, log_sd(mean, sd)


def occasions_of(course: Course) -> tuple[Occasion, ...]:
    """Every act of the plan that may bring an event, in the order of the plan; within an act by the event's id.

    Each occasion brings it once at most, and occasions are independent of each other. Our own rule.
    """
    state = course.plant.visit.job.job.plant
    events = course.plant.library.events.values()
    return tuple(
        Occasion(done.steps[0].n, chance, event)
        for done in course.done
        for event in events
        if (chance := min(1 - (1 - _chance(event, state)) ** _times(event, done, course), _NEARLY_SURE)) > 0
    )


def _chance(event: Event, state: str) -> float:
    return {"clean": event.chance_clean, "weathered": event.chance_weathered, "corroded": event.chance_corroded}[state]


def _times(event: Event, done: Done, course: Course) -> int:
    """How often the act offers the event its chance."""
    part, first = done.act.part, done.act.leg == 0  # the first leg of a condition or proof stands for the whole
    if isinstance(part, Make):
        return int(first and part.name in event.conditions and not part.already)
    if isinstance(part, Prove):
        return int(first and part.proof.id in event.proofs)
    return sum(pieces for kind, pieces in _pieces(done, event.at, course) if kind in event.kinds)


def _pieces(done: Done, at: str, course: Course) -> Iterator[tuple[str, int]]:
    """Kind and pieces of each joint that the act undoes or remakes."""
    plant = course.plant
    joints = dict.fromkeys(line.joint or done.act.joint for line in done.act.lines if line.action == at)
    for joint in plant.assembly.joint:
        if joint.id in joints:
            yield plant.fixing(joint).kind, joint.count


def cases_of(occasions: tuple[Occasion, ...]) -> tuple[Case, ...]:
    """Nothing; each event once and nothing else; and two or more, of which only the moments are kept.

    The chances sum to 1 and the moments over all cases are exact: the last case is what is left of the whole. Cost
    grows with the number of occasions and of different events.
    """
    if not occasions:
        return (Case("", 1.0, Moments(0.0)),)
    nothing = 1.0
    for occasion in occasions:
        nothing *= 1 - occasion.chance
    single: dict[str, Case] = {}
    for occasion in occasions:
        name = occasion.event.id
        chance = nothing * occasion.chance / (1 - occasion.chance)
        chance += single[name].chance if name in single else 0.0
        single[name] = Case(name, chance, occasion.cost)
    found = (Case("", nothing, Moments(0.0)), *single.values())
    left = 1 - sum(case.chance for case in found)
    whole = total(perhaps(occasion.chance, occasion.cost) for occasion in occasions).raw
    raw = [whole[k] - sum(case.chance * case.cost.raw[k] for case in found) for k in range(3)]
    if left < 1e-9 or min(raw) <= 0:
        return (found[0]._replace(chance=nothing + max(left, 0.0)), *found[1:])
    return (*found, Case("more", left, of_raw(*(moment / left for moment in raw))))
