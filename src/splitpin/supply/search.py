"""The best load within limits: branch and bound over minimum cuts.

Room gets a price: each cut then bounds from below what any load within the limits costs, at the best prices often
closely. Where it does not settle the matter, one column is held to fewer levels, and then to at least so many.

By hand: boards A and B save 30 and 20 and weigh 3 kg each, 4 kg may be drawn. At a price of 5 a kilogram the cut takes
A and B, for 5 * 6 - 5 * 4 = 10; at 6.67 only A pays, for 20 + 20 - 26.67 = 13.3; holding B to nothing gives 20: proved.

Source: Lagrangean relaxation (Held and Karp 1970, Geoffrion 1974) over the closure problem of `claims`.
"""

import heapq
from collections.abc import Callable, Iterator
from operator import mul
from typing import NamedTuple

from splitpin.supply.claims import Claims, Step, claims_of
from splitpin.supply.cut import Network
from splitpin.supply.problem import LoadProblem
from splitpin.supply.result import Load
from splitpin.supply.shadow import Plane, best_prices

_CUTS_AT_ROOT = 40
_CUTS_AT_NODE = 8
_REMEMBERED = 12  # known loads that a node hands on

Levels = tuple[int, ...]
Prices = tuple[int, int]


def best_load(problem: LoadProblem, stop: Callable[[], bool] | None = None, *, alone: bool = False) -> Load:
    """The load of least expected cost, proved, or the best found when `stop` (polled between cuts) ended the search.

    By the cautious rule of `claims`; `alone`: as if every job found the whole load still there.

    Of loads that cost the same without a limit it is the smallest. Cost: one cut where no limit binds, milliseconds for
    hundreds of items; else cuts grow with how evenly the limits could be filled in different ways.
    """
    return _Search(problem, claims_of(problem, alone=alone), stop or (lambda: False)).run()


class _Seen(NamedTuple):
    levels: Levels
    plane: Plane


class _Node(NamedTuple):
    bound: int
    number: int
    low: Levels
    high: Levels
    prices: Prices
    seen: tuple[_Seen, ...]
    column: int  # where to part
    level: int  # the least level of the upper part


class _Search:
    def __init__(self, problem: LoadProblem, claims: Claims, stop: Callable[[], bool]) -> None:
        self.problem = problem
        self.stop = stop
        self.claims = claims
        self.network = Network(self.claims)
        self.steps = [column.steps for column in self.claims.columns]
        full = tuple(len(steps) for steps in self.steps)
        self.nothing = tuple(map(_free, self.steps))  # nothing drawn
        self.full = full
        whole = self.claims.use(full)
        self.limits = tuple(
            use if limit is None else limit for use, limit in zip(whole, (problem.mass, problem.volume), strict=True)
        )
        worth = sum(gain for _, gain in self.claims.claims)
        # at these prices the room alone, left empty, is worth all that a load can gain: no best prices are higher
        mass, volume = (
            worth // max(1, limit) + 1 if use > limit else 0 for use, limit in zip(whole, self.limits, strict=True)
        )
        self.dearest = (mass, volume)
        self.best = self.nothing
        self.cost = self.claims.cost(self.nothing)
        self.offered: set[Levels] = set()
        self.cuts = 0
        self.number = 0

    def run(self) -> Load:
        open_nodes: list[_Node] = []
        root = self._relaxed(self.nothing, self.full, (0, 0), (self._seen(self.nothing),), _CUTS_AT_ROOT)
        bound = root.bound if root else self.cost
        if root:
            open_nodes.append(root)
        while open_nodes and open_nodes[0].bound < self.cost:
            if self.stop():
                break
            node = heapq.heappop(open_nodes)
            for low, high in self._parts(node):
                part = self._relaxed(low, high, node.prices, node.seen, _CUTS_AT_NODE)
                if part:
                    heapq.heappush(open_nodes, part._replace(bound=max(part.bound, node.bound)))
        bound = min([self.cost, *(node.bound for node in open_nodes)])
        wanted = self.claims.counts(self.best, len(self.problem.items))
        counts = tuple(max(count, item.aboard) for count, item in zip(wanted, self.problem.items, strict=True))
        return Load(counts, self.problem.drawn(counts), self.cost, bound - self.claims.given_up, self.cuts)

    def _parts(self, node: _Node) -> Iterator[tuple[Levels, Levels]]:
        column, level = node.column, node.level
        yield node.low, (*node.high[:column], level - 1, *node.high[column + 1 :])
        yield (*node.low[:column], level, *node.low[column + 1 :]), node.high

    def _relaxed(self, low: Levels, high: Levels, prices: Prices, known: tuple[_Seen, ...], cuts: int) -> _Node | None:
        """The part of the loads between `low` and `high`, with its bound; None where none of them can be better."""
        if self._over(low):
            return None
        seen = [one for one in known if all(map(_between, low, one.levels, high))]
        tried: set[Prices] = set()
        best, best_prices_yet = -1, prices
        while prices not in tried and len(tried) < cuts and not (tried and self.stop()):
            tried.add(prices)
            bound, levels = self._cut(low, high, prices)
            if bound > best:
                best, best_prices_yet = bound, prices
            if best >= self.cost:
                return None
            if all(one.levels != levels for one in seen):
                seen.append(self._seen(levels))
            if best >= self.cost:
                return None
            prices = self._next_prices(seen)
        parting = self._parting(low, high, seen, best_prices_yet)
        if parting is None:
            return None
        self.number += 1
        nearest = sorted(seen, key=lambda one: _height(one.plane, best_prices_yet))[:_REMEMBERED]
        return _Node(best, self.number, low, high, best_prices_yet, tuple(nearest), *parting)

    def _cut(self, low: Levels, high: Levels, prices: Prices) -> tuple[int, Levels]:
        """The bound at these prices and the load that attains it; a load within the limits is tried as the best."""
        forced = 0
        costs: list[list[int | None]] = []
        for steps, least, most in zip(self.steps, low, high, strict=True):
            row: list[int | None] = []
            for n, step in enumerate(steps):
                cost = step.cost + prices[0] * step.mass + prices[1] * step.volume
                if n < least:
                    forced += cost
                row.append(0 if n < least else cost if n < most else None)
            costs.append(row)
        self.cuts += 1
        value, found = self.network.least(costs)
        levels = tuple(map(max, found, low))
        bound = value + forced + self.claims.lost - sum(map(mul, prices, self.limits))
        if not self._over(levels):
            self._offer(levels)
        return bound, levels

    def _offer(self, levels: Levels) -> None:
        """A load within the limits, filled up as far as that pays, is kept if it is the best so far."""
        if levels in self.offered:
            return
        self.offered.add(levels)
        for load in (levels, self._filled(levels)):
            cost = self.claims.cost(load)
            if cost < self.cost:
                self.best, self.cost = load, cost

    def _filled(self, levels: Levels) -> Levels:
        """Claim by claim, the one that saves most for its share of the room that is left; each is weighed alone."""
        reached = list(levels)
        unmet = [one for one in self.claims.claims if not _met(reached, one[0])]
        while True:
            room = [limit - use for limit, use in zip(self.limits, self.claims.use(tuple(reached)), strict=True)]
            pick, worth = None, 0.0
            for needs, gain in unmet:
                cost = mass = volume = 0
                for column, level in needs:
                    for step in self.steps[column][reached[column] : level]:
                        cost, mass, volume = cost + step.cost, mass + step.mass, volume + step.volume
                if cost < gain and mass <= room[0] and volume <= room[1]:
                    value = (gain - cost) / (1e-9 + mass / (room[0] or 1) + volume / (room[1] or 1))
                    if value > worth:
                        pick, worth = needs, value
            if pick is None:
                return tuple(reached)
            for column, level in pick:
                reached[column] = max(reached[column], level)
            unmet = [one for one in unmet if not _met(reached, one[0])]

    def _over(self, levels: Levels) -> bool:
        return any(use > limit for use, limit in zip(self.claims.use(levels), self.limits, strict=True))

    def _seen(self, levels: Levels) -> _Seen:
        mass, volume = self.claims.use(levels)
        return _Seen(levels, (self.claims.cost(levels), mass - self.limits[0], volume - self.limits[1]))

    def _next_prices(self, seen: list[_Seen]) -> Prices:
        mass, volume = best_prices([one.plane for one in seen], self.dearest)
        return round(mass), round(volume)

    def _parting(self, low: Levels, high: Levels, seen: list[_Seen], prices: Prices) -> tuple[int, int] | None:
        """The column in which the cheapest loads at these prices differ most, by what the difference weighs and fills,
        and the least level of its upper part; None where only one load is left.
        """
        if low == high:
            self._offer(low)
            return None
        nearest = sorted(seen, key=lambda one: _height(one.plane, prices))[:4] or [self._seen(low)]
        found, most = None, -1.0
        for column, steps in enumerate(self.steps):
            if low[column] == high[column]:
                continue
            levels = [one.levels[column] for one in nearest]
            least, largest = min(levels), max(levels)
            apart = least < largest
            if not apart:
                least, largest = (least - 1, least) if least > low[column] else (least, least + 1)
            size = sum(prices[0] * step.mass + prices[1] * step.volume for step in steps[least:largest])
            weight = size + 0.5 + (1e18 if apart else 0.0)  # a difference comes first
            if weight > most:
                found, most = (column, (least + largest + 1) // 2), weight
        return found


def _free(steps: tuple[Step, ...]) -> int:
    """The levels that lie in the van already."""
    return next((n for n, step in enumerate(steps) if step.drawn), len(steps))


def _met(reached: list[int], needs: tuple[tuple[int, int], ...]) -> bool:
    return all(reached[column] >= level for column, level in needs)


def _height(plane: Plane, prices: Prices) -> float:
    return plane[0] + prices[0] * plane[1] + prices[1] * plane[2]


def _between(low: int, level: int, high: int) -> bool:
    return low <= level <= high
