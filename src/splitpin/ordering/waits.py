"""Exact search when waits run by themselves: least elapsed time, hands-on and idle together.

Labels are expanded in the order of a bound that never overstates (A*). One label beats another with the same set and
stance when the worker is free no later and no wait ends later, counted from when it could matter. Our own rules.
"""

import heapq

from splitpin.ordering.changes import Stop, never
from splitpin.ordering.hands import Hands
from splitpin.ordering.labels import Label, Labels, Releases
from splitpin.ordering.precedence import Precedence

MOST_LABELS = 1_000_000
"""Labels remembered before the search gives up the proof: about half a gigabyte."""

FIRST_BEAM, BEAM_EVERY = 8, 1_000
"""A beam of this width after this many expansions; then twice the width at four times as many. Chosen by trial."""


class Waits:
    """One search over labels. Cost: grows with the sets that can be done, times stances, times waits running."""

    def __init__(self, hands: Hands, precedence: Precedence) -> None:
        self.labels = Labels(hands, precedence)
        self._hands, self._size = hands, precedence.size
        self._seen: dict[tuple[int, int], list[tuple[int, Releases]]] = {}
        self.explored = 0

    def run(self, stop: Stop, limit: int, floor: int) -> tuple[tuple[int, ...] | None, int]:
        """The best order found that ends before the limit (None when none is), and the proved bound.

        floor: a bound that is known already.
        """
        order: tuple[int, ...] | None = None
        start = self.labels.start()
        found = self._beam(1, limit, never)
        if found is not None:
            limit, order = found
        nodes: list[tuple[int, int]] = [(-1, -1)]
        heap = [(max(floor, self.labels.bound(start)), self._size, 0, start)]
        width, next_beam = FIRST_BEAM, BEAM_EVERY
        while heap:
            bound, remaining, node, label = heapq.heappop(heap)
            if bound >= limit:
                break
            self.explored += 1
            if (not self.explored & 15 and stop()) or len(nodes) > MOST_LABELS:
                return order, bound
            if self.explored == next_beam:
                next_beam, width = next_beam * 4, width * 2
                found = self._beam(width, limit, stop)
                if found is not None:
                    limit, order = found
            for index in self.labels.moves(label):
                child = self.labels.after(label, index)
                if child is None:
                    continue
                promise = max(bound, self.labels.bound(child, limit))
                if promise >= limit or self._beaten(child):
                    continue
                nodes.append((node, index))
                if remaining == 1:
                    limit, order = child.now, trace(nodes, len(nodes) - 1)
                else:
                    heapq.heappush(heap, (promise, remaining - 1, len(nodes) - 1, child))
        return order, limit

    def _beam(self, width: int, limit: int, stop: Stop) -> tuple[int, tuple[int, ...]] | None:
        """A good order that ends before the limit: of every length the most promising labels up to the width go on."""
        layer: list[tuple[int, int, Label, tuple[int, ...]]] = [(0, 0, self.labels.start(), ())]
        for _ in range(self._size):
            following: dict[Label, tuple[int, int, Label, tuple[int, ...]]] = {}
            for _, _, label, order in layer:
                if stop():
                    return None
                for index in self.labels.moves(label):
                    child = self.labels.after(label, index)
                    if child is not None and child not in following:
                        promise = self.labels.bound(child, limit)
                        if promise < limit:
                            following[child] = promise, child.now, child, (*order, index)
            layer = sorted(following.values())[:width]
        return (layer[0][1], layer[0][3]) if layer else None

    def _beaten(self, label: Label) -> bool:
        """Whether a label met before is as good in every respect; if not, this one is remembered."""
        done, stance, now, releases = label
        met = self._seen.setdefault((done, stance), [])
        for earlier, others in met:
            if earlier <= now and all(
                other <= release or other <= now for other, release in zip(others, releases, strict=True)
            ):
                return True
        met.append((now, releases))
        return False


def trace(nodes: list[tuple[int, int]], node: int) -> tuple[int, ...]:
    """The operations on the way to a node, each node a pair of the one before it and what was done."""
    order = []
    while node:
        node, index = nodes[node]
        order.append(index)
    return tuple(reversed(order))
