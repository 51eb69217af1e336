"""Every opening, cheapest first, so that a later step can weigh the order of the work as well.

Two openings with the same nodes but other alternatives force other orders, so each acyclic way of choosing is an
opening of its own. Best-first over the choices made so far: a state holds everything its choices force, one
choice raised in it is taken up, and each of its ways gives a state, so every opening is arrived at exactly once.
A state is worth its cost plus the least that finishing it can cost; the worth never falls along the way, hence the
rising cost. A way is dropped as soon as no order is left for the choices made (checked exactly: a choice made
offers one way, an open one all of its ways), so every state kept leads to an opening.

By hand: node 1 needs {} or {0}; target 1, target 0. Both openings are {0, 1}; in the second 0 comes before 1.

Ties: the state with fewer open choices goes first, then the one found first.
"""

import heapq
from collections.abc import Callable, Iterator

from splitpin.access.bound import UNREACHABLE, Bound
from splitpin.access.problem import AccessProblem
from splitpin.access.reduction import Reduction, reduce
from splitpin.access.result import Opening
from splitpin.access.search import opening_of

_Made = tuple["_Made", int, int] | None  # (choices made before, choice, way)


def openings(problem: AccessProblem, *, stop: Callable[[], bool] | None = None) -> Iterator[Opening]:
    """Openings in nondecreasing cost, each acyclic way of choosing exactly once; none when there is none.

    stop: asked before each state is taken up; true ends the iteration early.
    Work between two openings grows with the number of choices; memory with the number of states left waiting.
    """
    reduction = reduce(problem)
    if reduction is None:
        return
    bound = Bound(reduction)
    circular = _circular(reduction)
    base = reduction.price(reduction.forced)
    rest, _ = bound.least_rest(reduction.forced, reduction.raised)
    made: _Made = None
    queue = [(base + rest, reduction.raised.bit_count(), 0, reduction.forced, reduction.raised, 0, base, made)]
    count = 0
    while queue:
        if stop is not None and stop():
            return
        worth, left, _, held, raised, decided, cost, made = heapq.heappop(queue)
        if not left:
            yield opening_of(problem, reduction, _taken(made))
            continue
        number = _next_choice(reduction, held, raised & ~decided)
        for index, way in enumerate(reduction.choices[number].ways):
            grown, grown_raised = held | way.forces, raised | way.raises
            chosen = (made, number, index)
            if circular[number] & way.raises and not _orderable(reduction, grown_raised, _taken(chosen)):
                continue
            rest, _ = bound.least_rest(grown, grown_raised)
            if rest == UNREACHABLE:
                continue
            grown_cost = cost + reduction.price(way.forces & ~held)
            grown_decided = decided | 1 << number
            count += 1
            heapq.heappush(queue, (
                max(worth, grown_cost + rest), (grown_raised & ~grown_decided).bit_count(), count,
                grown, grown_raised, grown_decided, grown_cost, chosen,
            ))


def _taken(made: _Made) -> dict[int, int]:
    taken = {}
    while made is not None:
        made, number, index = made
        taken[number] = index
    return taken


def _next_choice(reduction: Reduction, held: int, undecided: int) -> int:
    """The first choice that no way meets inside the set, or else the first one."""
    first = (undecided & -undecided).bit_length() - 1
    while undecided:
        low = undecided & -undecided
        undecided ^= low
        number = low.bit_length() - 1
        if all(way.forces & ~held for way in reduction.choices[number].ways):
            return number
    return first


def _circular(reduction: Reduction) -> list[int]:
    """For each choice, the choices that can lead back to it: only those can close a circle."""
    leads = [0] * len(reduction.choices)
    for number, choice in enumerate(reduction.choices):
        for way in choice.ways:
            leads[number] |= way.raises
    changed = True
    while changed:
        changed = False
        for number, reached in enumerate(leads):
            further = reached
            for other in range(len(leads)):
                if reached >> other & 1:
                    further |= leads[other]
            if further != reached:
                leads[number] = further
                changed = True
    return [sum(1 << other for other, reached in enumerate(leads) if reached >> number & 1)
            for number in range(len(leads))]


def _orderable(reduction: Reduction, raised: int, taken: dict[int, int]) -> bool:
    """Whether the choices made, and any for the rest, leave an order in which all raised choices are met."""
    met = 0
    progress = True
    while progress and raised & ~met:
        progress = False
        for number, choice in enumerate(reduction.choices):
            if met >> number & 1:
                continue
            ways = choice.ways if number not in taken else (choice.ways[taken[number]],)
            if any(not way.raises & ~met for way in ways):
                met |= 1 << number
                progress = True
    return not raised & ~met
