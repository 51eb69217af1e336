"""Every answer that a plan rests on, looked at again before the plan leaves: the opening, both orders, the plan itself.

Each has a check of its own that shares no code with what found it. By hand: an order that does the second act first is
told by the check of orders; a plan whose cover goes back before the look behind it, by the referee of plans.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.access.check import causes_hold, check_opening
from splitpin.ordering.check import Verification, check_order
from splitpin.planning.best.choose import Clash
from splitpin.planning.check import check_plan

if TYPE_CHECKING:
    from splitpin.access.problem import AccessProblem
    from splitpin.access.result import Cause
    from splitpin.ordering.result import OrderResult
    from splitpin.planning.best.choose import Choice
    from splitpin.planning.planned import Planned
    from splitpin.planning.plant.plant import Plant
    from splitpin.planning.programme.acts import Programme
    from splitpin.planning.written.course import Course


def faults_of_plan(planned: Planned) -> Iterator[str]:
    """What the referee has against a plan. Cost: some milliseconds for a hundred steps."""
    for fault in check_plan(planned.plan, planned.visit):
        where = "" if fault.step is None else f"step {fault.step}: "
        yield f"{where}{fault.message} ({fault.rule})"


def faults_of_choice(choice: Choice, problem: AccessProblem, plant: Plant) -> Iterator[str]:
    """What is wrong with the opening that was chosen, and with the orders found for its two halves."""
    for fault in check_opening(problem, choice.candidate.opening):
        yield f"the opening: {fault.code} {', '.join(map(str, fault.numbers))}".rstrip()
    for name, programme, found in _halves(choice):
        seen = check_order(programme.problem(plant), found.order)
        yield from _broken(name, programme, seen)
        if seen.legal and (seen.starts_s, seen.ends_s, seen.elapsed_s, seen.hands_on_s) != (
            found.starts_s,
            found.ends_s,
            found.elapsed_s,
            found.hands_on_s,
        ):
            yield f"the order of the {name}: it takes {seen.elapsed_s} s, not {found.elapsed_s} s as found"
        if found.bound_s > found.elapsed_s:
            yield f"the order of the {name}: it takes less than it is proved to take"


def faults_of_course(course: Course) -> Iterator[str]:
    """What is wrong with the orders in which the acts are written down: tidied, they take as long as those found."""
    left = list(course.done)
    offset_s = 0
    for name, programme, found in _halves(course.choice):
        done, left = left[: len(programme.acts)], left[len(programme.acts) :]
        number = {act: index for index, act in enumerate(programme.acts)}
        seen = check_order(programme.problem(course.plant), [number.get(one.act, -1) for one in done])
        yield from _broken(name, programme, seen)
        if seen.legal and [one.slot.end_s - offset_s for one in done] != list(seen.ends_s):
            yield f"the order of the {name}: as written its acts do not end when they must"
        if seen.legal and seen.elapsed_s != found.elapsed_s:
            yield f"the order of the {name}: as written it takes {seen.elapsed_s} s, not {found.elapsed_s} s as found"
        offset_s += found.elapsed_s


def _halves(choice: Choice) -> tuple[tuple[str, Programme, OrderResult], ...]:
    candidate = choice.candidate
    return ("strip", candidate.strip, choice.strip), ("refit", candidate.refit.programme, choice.refit)


def _broken(name: str, programme: Programme, seen: Verification) -> Iterator[str]:
    titles = [f'"{act.lines[0].text}"' for act in programme.acts]
    for index in (*seen.missing, *seen.repeated):
        yield f"the order of the {name}: {titles[index] if index >= 0 else 'another act'} is not done once"
    for earlier, later in seen.broken:
        yield f"the order of the {name}: {titles[later]} comes before {titles[earlier]}"


def faults_of_clash(clash: Clash) -> Iterator[str]:
    """What is wrong with the claim that acts wait for each other in a circle."""
    before = clash.programme.before
    pairs = list(zip(clash.circle, clash.circle[1:], strict=False))
    if not pairs or clash.circle[0] != clash.circle[-1] or any(a not in before[b] for a, b in pairs):
        yield "the acts that are said to wait for each other do not"


def faults_of_causes(problem: AccessProblem, causes: tuple[Cause, ...]) -> Iterator[str]:
    """What is wrong with the claim that nothing opens."""
    if not causes_hold(problem, causes):
        yield "the reasons given do not rule out every opening"
