"""What must come before what, as sets of operations held in whole numbers (bit i stands for operation i).

The search works on operations renumbered so that every one has a higher number than all that must come before it;
among those that are free the lowest original index comes first, so the numbering is a fixed choice.
"""

import heapq
from collections.abc import Iterator, Sequence

from splitpin.ordering.problem import After


class Precedence:
    """The precedence of a problem without cycles, renumbered.

    original[i]: original index of the operation renumbered i. before[i], ancestors[i], descendants[i]: sets as bits.
    lags[i]: pairs (predecessor, lag), without those that other lags and the work between make sure of anyway.
    starters: set of operations that a lag of these starts from. Cost: operations times relations.
    """

    def __init__(self, after: Sequence[After], original: Sequence[int], seconds: Sequence[int]) -> None:
        self.size = len(original)
        self.original = tuple(original)
        renumbered = {index: position for position, index in enumerate(original)}
        self.before = [0] * self.size
        self.ancestors = [0] * self.size
        self.descendants = [0] * self.size
        self.lags: list[tuple[tuple[int, int], ...]] = []
        for position, index in enumerate(original):
            lags: dict[int, int] = {}
            for predecessor, lag in after[index]:
                earlier = renumbered[predecessor]
                self.before[position] |= 1 << earlier
                self.ancestors[position] |= 1 << earlier | self.ancestors[earlier]
                lags[earlier] = max(lag, lags.get(earlier, 0))
            self.lags.append(tuple(sorted(lags.items())))
        for position in reversed(range(self.size)):
            for earlier in bits(self.before[position]):
                self.descendants[earlier] |= 1 << position | self.descendants[position]
        work = [seconds[index] for index in original]
        lagging = {starter for lags in self.lags for starter, lag in lags if lag}
        needed = [self._lags_needed(starter, work) if starter in lagging else 0 for starter in range(self.size)]
        self.lags = [
            tuple((starter, lag) for starter, lag in lags if needed[starter] >> position & 1)
            for position, lags in enumerate(self.lags)
        ]
        self.starters = sum(1 << starter for starter, waiters in enumerate(needed) if waiters)

    def _lags_needed(self, starter: int, work: Sequence[int]) -> int:
        """The operations whose lag from this one (above 0) no other way from it to them makes sure of."""
        own = {position: dict(self.lags[position]).get(starter, 0) for position in bits(self.descendants[starter])}
        needed = 0
        begins: dict[int, int] = {}
        for position, lag in own.items():
            otherwise = max(
                (
                    begins[earlier] + work[earlier] + other
                    for earlier, other in self.lags[position]
                    if earlier in begins
                ),
                default=0,
            )
            begins[position] = max(otherwise, lag)
            if lag > otherwise:
                needed |= 1 << position
        return needed


def bits(members: int) -> Iterator[int]:
    """The members of a set, lowest first."""
    while members:
        lowest = members & -members
        yield lowest.bit_length() - 1
        members ^= lowest


def topological_order(after: Sequence[After]) -> tuple[int, ...] | None:
    """The order that always takes the lowest free index next, or None when there is a cycle."""
    missing = [len({predecessor for predecessor, _ in pairs}) for pairs in after]
    followers: list[list[int]] = [[] for _ in after]
    for index, pairs in enumerate(after):
        for predecessor in {predecessor for predecessor, _ in pairs}:
            followers[predecessor].append(index)
    free = [index for index, count in enumerate(missing) if count == 0]
    order = []
    while free:
        index = heapq.heappop(free)
        order.append(index)
        for follower in followers[index]:
            missing[follower] -= 1
            if missing[follower] == 0:
                heapq.heappush(free, follower)
    return tuple(order) if len(order) == len(after) else None


def shortest_cycle(after: Sequence[After]) -> tuple[int, ...]:
    """A shortest cycle, each operation after the one before it, first and last the same; empty when there is none.

    Among the shortest the one with the lowest start, then the first met when predecessors are tried in rising order.
    Cost: operations times relations.
    """
    best: tuple[int, ...] = ()
    earlier = [sorted({predecessor for predecessor, _ in pairs}) for pairs in after]
    for start in range(len(after)):
        next_towards: dict[int, int] = {}
        layer = [start]
        while layer and start not in next_towards:
            below = []
            for index in layer:
                for predecessor in earlier[index]:
                    if predecessor not in next_towards:
                        next_towards[predecessor] = index
                        below.append(predecessor)
            layer = below
        if start in next_towards:
            cycle = [start]
            while len(cycle) == 1 or cycle[-1] != start:
                cycle.append(next_towards[cycle[-1]])
            if not best or len(cycle) < len(best):
                best = tuple(cycle)
    return best
