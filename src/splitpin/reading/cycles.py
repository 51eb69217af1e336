"""The shortest circle among rules that make one thing wait for another.

Which things wait for themselves, and by the fewest rules? Breadth first from each thing back to itself. By hand: with a
waiting for b, b for c, c for a and c for b, the circle of b and c is the one that is told.
"""

from collections import deque
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from typing import TypeVar

from splitpin.notices import Notice, Place

Thing = TypeVar("Thing", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Rule:
    """Why one thing waits for another, in words, and where that is said."""

    text: str
    place: Place


# For each thing those that it waits for; a step without a rule of its own (out, because lifted) counts for nothing.
Waits = Mapping[Thing, Sequence[tuple[Thing, Rule | None]]]


def circles(waits: Waits[Thing]) -> list[tuple[frozenset[Thing], tuple[tuple[Thing, Rule], ...]]]:
    """For each knot of things that wait for each other: its things, and its shortest circle as (what waits, why).

    Empty when nothing waits for itself. Of equally short circles the one whose first rule stands first is told; a
    circle begins with its first rule in the order of places. Cost: one sort where there is no circle; else things x
    rules.
    """
    try:
        TopologicalSorter({thing: [other for other, _ in others] for thing, others in waits.items()}).prepare()
    except CycleError:
        return _knots(waits)
    return []


def _knots(waits: Waits[Thing]) -> list[tuple[frozenset[Thing], tuple[tuple[Thing, Rule], ...]]]:
    reach = {thing: _reached(thing, waits) for thing in waits}
    knots = []
    seen: set[Thing] = set()
    for thing in waits:
        if thing in seen or thing not in reach[thing]:
            continue
        knot = frozenset(other for other in reach[thing] if thing in reach.get(other, ()))
        seen |= knot
        found = [_shortest(start, knot, waits) for start in waits if start in knot]
        turned = [_from_first_rule(circle) for circle in found]
        knots.append((knot, min(turned, key=lambda circle: (len(circle), [rule.place for _, rule in circle]))))
    return knots


def _reached(start: Thing, waits: Waits[Thing]) -> set[Thing]:
    found: set[Thing] = set()
    ahead = [start]
    while ahead:
        for other, _ in waits.get(ahead.pop(), ()):
            if other not in found:
                found.add(other)
                ahead.append(other)
    return found


def _shortest(start: Thing, knot: Iterable[Thing], waits: Waits[Thing]) -> tuple[tuple[Thing, Rule], ...]:
    """The circle through `start` with the fewest rules; steps without a rule are taken first, as they cost nothing."""
    inside = frozenset(knot)
    came: dict[Thing, tuple[Thing, Rule | None]] = {}
    least = {start: 0}
    around: int | None = None  # the rules of the best circle so far
    ahead: deque[tuple[int, Thing]] = deque([(0, start)])
    while ahead:
        rules, thing = ahead.popleft()
        for other, rule in waits[thing]:
            cost = rules + (rule is not None)
            if other == start:
                if around is None or cost < around:
                    around = cost
                    came[start] = (thing, rule)
            elif other in inside and cost < least.get(other, cost + 1):
                least[other] = cost
                came[other] = (thing, rule)
                (ahead.append if rule else ahead.appendleft)((cost, other))
    steps = [came[start]]
    while steps[-1][0] != start:
        steps.append(came[steps[-1][0]])
    return tuple((thing, rule) for thing, rule in reversed(steps) if rule is not None)


def _from_first_rule(circle: tuple[tuple[Thing, Rule], ...]) -> tuple[tuple[Thing, Rule], ...]:
    first = min(range(len(circle)), key=lambda index: circle[index][1].place)
    return circle[first:] + circle[:first]


def circle_notice(circle: Sequence[tuple[object, Rule]]) -> Notice:
    """The notice of a circle of rules, each with its place."""
    rules = [rule for _, rule in circle]
    told = told_from(rules)
    if len(rules) == 1:
        return Notice("cycle", f"this waits for itself: {told}", rules[0].place)
    return Notice("cycle", f"these wait for each other: {told}", rules[0].place, "one of these rules has to go")


def told_from(rules: Sequence[Rule]) -> str:
    """The rules in words, each with its place; the first one's path is not said again."""
    path = rules[0].place.path
    return "; ".join(
        f"{rule.text} ({f'line {rule.place.line}' if rule.place.path == path else rule.place})" for rule in rules
    )
