"""Every opening, cheapest first, so that a later step can weigh the order of the work as well.

Two openings with the same nodes but other alternatives force other orders, so each acyclic way of choosing is an
opening of its own. Best-first over the choices made so far: a state holds everything its choices force, one choice
brought up in it is taken up, and each of its ways gives a state, so every opening is arrived at exactly once. A state
is worth what the cheapest finished set around it costs, worked out exactly but only when the state comes to the head
of the queue: first as a bound, then by search. Steps that stay inside that cheapest set need no working out. The worth
never falls along the way, hence the rising cost. A way is dropped as soon as no order is left for the choices made
(checked exactly: a choice made offers one way, an open one all of its ways), so every state kept leads to an opening.

By hand: node 1 needs {} or {0}; targets 0 and 1. Both openings are {0, 1}; in the second 0 comes before 1.

Ties: a state whose cheapest finished set is known goes first, then the one with fewer open choices, then the one found
first.
"""

import heapq
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from splitpin.access.bound import Bound
from splitpin.access.finishing import Finish, finish
from splitpin.access.problem import AccessProblem
from splitpin.access.reduction import Reduction, reduce
from splitpin.access.result import Opening
from splitpin.access.search import least_set
from splitpin.access.settling import opening_of

_Made = tuple["_Made", int, int] | None  # (choices made before, choice, way)


@dataclass(frozen=True, slots=True)
class _State:
    """Choices made, what they force and cost, and the cheapest finished set around them once that is known."""

    held: int
    raised: int
    decided: int
    cost: int
    made: _Made
    goal: int | None


def openings(
    problem: AccessProblem,
    *,
    stop: Callable[[], bool] | None = None,
    unwanted: Callable[[int], bool] | None = None,
) -> Iterator[Opening]:
    """Openings in nondecreasing cost, each acyclic way of choosing exactly once; none when there is none.

    stop: asked before each state is taken up; true ends the iteration early.
    unwanted: asked of what a state holds (bits of nodes, and of charges behind them) when it is taken up; true drops
        it with all that grows from it, so that true must stay true for every larger set. What is left comes in the
        same order as without it.
    Work between two openings grows with the number of choices; memory with the number of states left waiting.
    """
    stop = stop or (lambda: False)
    reduction = reduce(problem)
    if reduction is None:
        return
    least = least_set(problem, reduction, stop)
    if least.bound < least.cost:
        return
    bound = Bound(reduction)
    circular = _circular(reduction)
    known: dict[int, Finish | None] = {}
    start = _State(reduction.forced, reduction.raised, 0, reduction.price(reduction.forced), None, least.complete)
    queue = [(least.cost, False, start.raised.bit_count(), 0, start)]
    count = 0
    while queue and not stop():
        worth, _, left, order, state = heapq.heappop(queue)
        if unwanted is not None and unwanted(state.held):
            continue
        if state.goal is None:
            found = _finished(reduction, bound, state, known, stop)
            if found is None:
                continue
            if found.bound == found.cost:
                state = replace(state, goal=found.complete)
            if found.bound > worth or state.goal is None:
                heapq.heappush(queue, (max(worth, found.bound), state.goal is None, left, order, state))
                continue
        if not left:
            yield opening_of(problem, reduction, _taken(state.made))
            continue
        number = _next_choice(reduction, state.held, state.raised & ~state.decided)
        decided = state.decided | 1 << number
        for index, way in enumerate(reduction.choices[number].ways):
            raised = state.raised | way.raises
            made = (state.made, number, index)
            if circular[number] & way.raises and not _orderable(reduction, raised, _taken(made)):
                continue
            count += 1
            inside = not way.forces & ~state.goal
            cost = state.cost + reduction.price(way.forces & ~state.held)
            grown = _State(state.held | way.forces, raised, decided, cost, made, state.goal if inside else None)
            heapq.heappush(queue, (worth, not inside, (raised & ~decided).bit_count(), count, grown))


def _finished(
    reduction: Reduction, bound: Bound, state: _State, known: dict[int, Finish | None], stop: Callable[[], bool]
) -> Finish | None:
    """More about finishing the state than was known: at first a bound, when asked again the cheapest finished set."""
    held = state.held
    if held not in known:
        rest = bound.rest(held, state.raised)
        known[held] = (
            None if rest is None else Finish(rest.complete, reduction.price(rest.complete), state.cost + rest.cost)
        )
    else:
        so_far = known[held]
        if so_far is not None and so_far.bound < so_far.cost:
            known[held] = finish(reduction, bound, held, state.raised, so_far, stop)
    return known[held]


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
    return [
        sum(1 << other for other, reached in enumerate(leads) if reached >> number & 1) for number in range(len(leads))
    ]


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
