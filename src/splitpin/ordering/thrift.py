"""Exact search among orders that end in time: the fewest set-up seconds, then the fewest changes of tool and position.

Both are one number, the toll (see hands). A state is a label and the toll paid so far. By hand: with a wait to fill, to
fetch the driver for a panel, put it down for a cover and fetch it again ends as soon as doing both things with the
driver first; it only pays one pick-up more.

Exact as the search for the least elapsed time is: states in the order of a bound on the whole toll (A*), and a state is
out when its label can't end in time any more. One state beats another where its label does and it has paid no more.
Bringing a ready operation forward loses no set-up and no change, so what the labels do at once is done at once here,
too; but what lies on the way must be on the way for changes as well. Our own rules.
"""

import heapq

from splitpin.ordering.changes import Stop
from splitpin.ordering.hands import Hands, Pairwise
from splitpin.ordering.labels import Label, Labels, Releases
from splitpin.ordering.parts import RestTogether
from splitpin.ordering.precedence import Precedence
from splitpin.ordering.waits import BEAM_EVERY, FIRST_BEAM, trace

SOON = 64
"""Expansions before the first beam: most searches end sooner."""

Order = tuple[int, ...]


class Thrift:
    """One search. Cost: as that of Waits, times the tolls that are not beaten."""

    def __init__(self, hands: Hands, precedence: Precedence, end: int) -> None:
        self._labels = Labels(hands, precedence, tolls=True)
        self._hands, self._size, self._end = hands, precedence.size, end
        self._rest = (
            hands.rest_toll if isinstance(hands, Pairwise) else RestTogether(hands.tolls, precedence, hands.rest_toll)
        )
        self._seen: dict[tuple[int, int], list[tuple[int, int, Releases]]] = {}
        self.explored = 0

    def run(self, stop: Stop, limit: int, floor: int) -> tuple[Order | None, int]:
        """The order of least toll below the limit among those that end in time (None when none is), and the proved
        bound.

        floor: a bound that is known already.
        """
        order: Order | None = None
        start = self._labels.start()
        nodes: list[tuple[int, int]] = [(-1, -1)]
        heap = [(max(floor, self._rest(0, start.stance)), self._size, 0, start, 0)]
        width, next_beam = FIRST_BEAM, SOON
        while heap:
            bound, remaining, node, label, toll = heapq.heappop(heap)
            if bound >= limit:
                break
            self.explored += 1
            if not self.explored & 15 and stop():
                return order, bound
            if self.explored == next_beam:
                next_beam, width = max(next_beam * 4, BEAM_EVERY), width * 2
                found = self._beam(width, limit, stop)
                if found is not None:
                    limit, order = found
            for child, index, paid in self._onward(label, toll):
                promise = max(bound, paid + self._rest(child.done, child.stance))
                if (
                    promise >= limit
                    or self._labels.bound(child, self._end + 1) > self._end
                    or self._beaten(child, paid)
                ):
                    continue
                nodes.append((node, index))
                if remaining == 1:
                    limit, order = paid, trace(nodes, len(nodes) - 1)
                else:
                    heapq.heappush(heap, (promise, remaining - 1, len(nodes) - 1, child, paid))
        return order, limit

    def _onward(self, label: Label, toll: int) -> list[tuple[Label, int, int]]:
        """The labels one operation further, the operation, and the toll paid by then."""
        tolls, nexts = self._hands.tolls.steps(label.stance), self._hands.row(label.stance)[1]
        onward = []
        for index in self._labels.moves(label):
            child = self._labels.after(label, index)
            if child is not None:
                onward.append((child, index, toll + tolls[nexts[index]]))
        return onward

    def _beam(self, width: int, limit: int, stop: Stop) -> tuple[int, Order] | None:
        """A thrifty order in time, below the limit: of every length the most promising states up to the width go on."""
        layer: list[tuple[int, int, Label, Order, int]] = [(0, 0, self._labels.start(), (), 0)]
        for _ in range(self._size):
            following: dict[Label, tuple[int, int, Label, Order, int]] = {}
            for _, _, label, order, toll in layer:
                if stop():
                    return None
                for child, index, paid in self._onward(label, toll):
                    if child in following and following[child][4] <= paid:
                        continue
                    promise = paid + self._rest(child.done, child.stance)
                    if promise < limit and (ends := self._labels.bound(child)) <= self._end:
                        following[child] = promise, ends, child, (*order, index), paid
            layer = sorted(following.values())[:width]
        return (layer[0][4], layer[0][3]) if layer else None

    def _beaten(self, label: Label, toll: int) -> bool:
        """Whether a state met before is as good in every respect; if not, this one is remembered."""
        done, stance, now, releases = label
        met = self._seen.setdefault((done, stance), [])
        for paid, earlier, others in met:
            if (
                paid <= toll
                and earlier <= now
                and all(other <= release or other <= now for other, release in zip(others, releases, strict=True))
            ):
                return True
        met.append((toll, now, releases))
        return False
