"""The least set of openings: the cheapest set in which some order meets every need.

Best-first over sets of nodes. A set is worth its own cost plus the least that finishing it can cost; the set of
least worth is taken up, a choice it does not meet is found, and every way of meeting it gives a larger set. The
worth never falls from a set to the sets grown from it, so the first finished set taken up is the least. A set
reached twice is kept once. A choice already met inside the set is not branched on: one acyclic choice is enough.

A choice can look met and not be, when its ways lean on each other in a circle. Then some choice of that circle
must be met from outside the set, so the branches are all the ways out of the circle.

Left out: the order itself and whatever it costs (see `listing`, which hands on every choice).
"""

import heapq
from collections.abc import Callable

from splitpin.access.bound import UNREACHABLE, Bound
from splitpin.access.causes import why_not
from splitpin.access.problem import AccessProblem
from splitpin.access.reduction import Reduction, reduce
from splitpin.access.result import TARGETS, AccessResult, Opening


def least_opening(problem: AccessProblem, *, stop: Callable[[], bool] | None = None) -> AccessResult:
    """The cheapest opening with proof, or the best found when `stop` says so, or why there is none.

    stop: asked before each set is taken up; true ends the search with the best so far and the proved bound.
    Ties: always the same opening for the same problem. Cost: exponential at worst in the number of true choices.
    """
    reduction = reduce(problem)
    if reduction is None:
        return AccessResult("impossible", None, 0, why_not(problem))
    bound = Bound(reduction)
    base = reduction.price(reduction.forced)
    rest, complete = bound.least_rest(reduction.forced, reduction.raised)
    best = settle(problem, reduction, complete)
    queue = [(base + rest, 0, reduction.forced, reduction.raised, base)]
    seen = {reduction.forced}
    count = 0
    while queue and queue[0][0] < best.cost:
        if stop is not None and stop():
            return AccessResult("bounded", best, queue[0][0])
        worth, _, held, raised, cost = heapq.heappop(queue)
        for forces, raises in _branches(reduction, held, raised):
            grown = held | forces
            if grown in seen:
                continue
            seen.add(grown)
            grown_raised = raised | raises
            rest, complete = bound.least_rest(grown, grown_raised)
            if rest == UNREACHABLE:
                continue
            grown_cost = cost + reduction.price(forces & ~held)
            if reduction.price(complete) < best.cost:
                best = min(best, settle(problem, reduction, complete), key=lambda opening: opening.cost)
            grown_worth = max(worth, grown_cost + rest)
            if grown_worth < best.cost:
                count += 1
                heapq.heappush(queue, (grown_worth, count, grown, grown_raised, grown_cost))
    return AccessResult("proved", best, best.cost)


def _met_inside(reduction: Reduction, held: int, raised: int) -> dict[int, int]:
    """For each raised choice that some order meets without leaving the set: the way it takes."""
    met = 0
    taken: dict[int, int] = {}
    progress = True
    while progress:
        progress = False
        for number, choice in enumerate(reduction.choices):
            if not raised >> number & 1 or met >> number & 1:
                continue
            for index, way in enumerate(choice.ways):
                if not way.forces & ~held and not way.raises & ~met:
                    met |= 1 << number
                    taken[number] = index
                    progress = True
                    break
    return taken


def _branches(reduction: Reduction, held: int, raised: int) -> list[tuple[int, int]]:
    """What can be added to an unfinished set so that every completion holds one of the additions."""
    taken = _met_inside(reduction, held, raised)
    met = sum(1 << number for number in taken)
    unmet = raised & ~met
    low = unmet & -unmet
    visited, stack = low, [low.bit_length() - 1]
    out: list[tuple[int, int]] = []
    while stack:
        for way in reduction.choices[stack.pop()].ways:
            if way.forces & ~held:
                out.append((way.forces, way.raises))
                continue
            rest = way.raises & ~met & ~visited
            if rest and not way.raises & ~met & visited:
                low = rest & -rest
                visited |= low
                stack.append(low.bit_length() - 1)
    return out


def settle(problem: AccessProblem, reduction: Reduction, held: int) -> Opening:
    """One acyclic opening inside a finished set, without what nothing asks for."""
    raised = reduction.raised
    for choice in reduction.choices:
        for way in choice.ways:
            if not way.forces & ~held:
                raised |= way.raises
    return opening_of(problem, reduction, _met_inside(reduction, held, raised))


def opening_of(problem: AccessProblem, reduction: Reduction, taken: dict[int, int]) -> Opening:
    """The opening in which each choice takes the way given for it (by position among its ways)."""
    by_owner: dict[int, list[tuple[int, int, int]]] = {}
    for number, index in taken.items():
        choice = reduction.choices[number]
        way = choice.ways[index]
        by_owner.setdefault(choice.owner, []).append((choice.need, way.number, way.nodes))
    chosen: list[tuple[int, int, int]] = []
    before: set[tuple[int, int]] = set()
    nodes: set[int] = set()
    waiting = [TARGETS]
    while waiting:
        owner = waiting.pop()
        for need, alternative, bits in (*reduction.settled[owner], *by_owner.get(owner, ())):
            chosen.append((owner, need, alternative))
            for node in _nodes_of(bits):
                if owner != TARGETS:
                    before.add((node, owner))
                if node not in nodes:
                    nodes.add(node)
                    waiting.append(node)
    charges = frozenset(charge for node in nodes for charge in problem.nodes[node].charges)
    cost = sum(problem.nodes[node].cost for node in nodes) + sum(problem.charge_costs[c] for c in charges)
    return Opening(frozenset(nodes), tuple(sorted(chosen)), tuple(sorted(before)), charges, cost)


def _nodes_of(bits: int) -> list[int]:
    found = []
    while bits:
        low = bits & -bits
        found.append(low.bit_length() - 1)
        bits ^= low
    return found
