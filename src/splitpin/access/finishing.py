"""The cheapest way to finish a set, with proof.

Best-first over sets of nodes. A set is worth its own cost plus the least that finishing it can cost; the set of least
worth is taken up, a choice it does not meet is found, and every way of meeting it gives a larger set, in which the
ways tried before it are barred. The worth never falls from a set to the sets grown from it, so the search ends when
no set is worth less than the best found. A choice already met inside the set is not branched on: one acyclic choice
is enough. A choice can look met and not be, when its ways lean on each other in a circle: then one of that circle
must be met from outside the set, so the branches are all the ways out of the circle.

By hand: each two of the articles 0, 1 and 2, at 2 each, have a target that wants one of them. The cut {0, 1} prices 2;
what is left free meets only two targets. With 0 in the set the cut {1, 2} makes 4; without 0 both others are wanted,
4 as well. So 4 is the least.
"""

import heapq
from collections.abc import Callable
from dataclasses import dataclass

from splitpin.access.bound import Bound, PricedWay
from splitpin.access.reduction import Reduction, members
from splitpin.access.settling import met_inside


@dataclass(frozen=True, slots=True)
class Finish:
    """complete: bits of the best finished set found; cost: of that whole set; bound: no finished set costs less."""

    complete: int
    cost: int
    bound: int


def finish(
    reduction: Reduction, bound: Bound, held: int, raised: int, best: Finish, stop: Callable[[], bool]
) -> Finish:
    """The cheapest finished set that contains `held`; its bound equals its cost unless `stop` ended the search.

    held: node bits closed under what they force; raised: the choices they bring up; best: a finished set known so far,
    with a bound known so far. stop: asked before each set is taken up. Cost: exponential at worst in the choices.
    """
    complete, least = best.complete, best.cost
    queue = [(best.bound, 0, held, raised, 0, reduction.price(held))]
    count = 0
    while queue and queue[0][0] < least:
        if stop():
            return Finish(complete, least, queue[0][0])
        worth, _, held, raised, barred, cost = heapq.heappop(queue)
        for way in _ways_on(reduction, bound, held, raised, barred):
            grown, grown_raised = held | way.forces, raised | way.raises
            rest = None if way.bit & barred else bound.rest(grown, grown_raised, barred)
            if rest is not None:
                grown_cost = cost + reduction.price(way.forces & ~held)
                found = reduction.price(rest.complete)
                if found < least:
                    complete, least = rest.complete, found
                grown_worth = max(worth, grown_cost + rest.cost)
                if grown_worth < least:
                    count += 1
                    dear = barred | bound.dear(rest, least - grown_cost - rest.cost)
                    heapq.heappush(queue, (grown_worth, count, grown, grown_raised, dear, grown_cost))
            barred |= bound.holding(way.forces)
    return Finish(complete, least, least)


def _ways_on(reduction: Reduction, bound: Bound, held: int, raised: int, barred: int) -> list[PricedWay]:
    """Ways to grow an unfinished set such that every completion takes one of them: of a choice with fewest."""
    met = sum(1 << number for number in met_inside(reduction, held))
    found: list[PricedWay] = []
    for first in members(raised & ~met):
        visited, stack = 1 << first, [first]
        out: list[PricedWay] = []
        while stack:
            for way in bound.ways[stack.pop()]:
                if way.bit & barred:
                    continue
                if way.forces & ~held:
                    out.append(way)
                    continue
                fresh = way.raises & ~met
                if not fresh & visited:
                    fresh &= -fresh
                    visited |= fresh
                    stack.append(fresh.bit_length() - 1)
        if not found or len(out) < len(found):
            found = out
    return found
