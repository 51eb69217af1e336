"""General change-overs without waits: the least path through all operations, over the sets that can be done.

A plan does not need it: it is here for the visiting order of a round, where the way from each job to each other one is
a change-over of its own.

A set that holds all predecessors of its members is an ideal. What is still to come depends on the ideal and the last
operation alone, so of all orders of the same ideal with the same last operation only the cheapest matters. By hand:
operations a, b with no precedence, start to a 1, start to b 5, a to b 7, b to a 1: ideals {}, {a}, {b}, {a, b};
ending in b costs 8, ending in a costs 6, so the least is 6.

Exact, layer by layer, as a dynamic programme (Held and Karp 1962 for the ideals of all subsets; from memory). First
the ideals are counted, up to a cap. Under the cap every state is kept. Over it, layers are cut to a width, states
that cannot beat the best order are left out, and the least bound of any state cut away is remembered: where that
reaches the best order, it is proved; otherwise the width grows. The bound: the assignment that lets everything be
entered once, its prices taken off every change-over; of what is left over the least into each operation still to
come, exactly one of them from the last operation. Our own rules.
"""

from collections.abc import Callable

from splitpin.ordering.assignment import prices
from splitpin.ordering.hands import FORBIDDEN, Pairwise
from splitpin.ordering.precedence import Precedence, bits

MOST_IDEALS = 300_000
"""Ideals up to which all states are kept: a few seconds and some hundred megabytes."""

MOST_STATES = 3_000_000
"""Width times layers up to which the width grows: about half a gigabyte."""

FIRST_WIDTH, WIDER = 64, 8
"""States kept in a layer at first, and the factor by which that grows. Chosen by trial."""

Layer = dict[int, dict[int, int]]
"""Per ideal, per last operation: least seconds. The number of operations stands for the start."""

Stop = Callable[[], bool] | None


class _StoppedError(Exception):
    """The caller has said stop in the middle of a layer."""


class Ideals:
    """One search. Cost: ideals times the operations that can come last times those that can come next."""

    def __init__(self, hands: Pairwise, precedence: Precedence) -> None:
        self._size = precedence.size
        self._all = (1 << precedence.size) - 1
        self._before = precedence.before
        arcs = [
            [entry if self._can_follow(precedence, row, column) else FORBIDDEN for column, entry in enumerate(entries)]
            for row, entries in enumerate(hands.row(row)[0] for row in range(self._size + 1))
        ]
        ends = [FORBIDDEN if after else 0 for after in precedence.descendants] + [FORBIDDEN if self._size else 0]
        square = [[*row, end] for row, end in zip(arcs, ends, strict=True)]
        rows, columns = prices(square)
        self.root = sum(rows) + sum(columns)
        self._arcs = [
            [entry - price - column for entry, column in zip(entries, columns, strict=True)]
            for entries, price in zip(square, rows, strict=True)
        ]
        self._into = [
            sorted((self._arcs[row][column], 1 << row) for row in range(self._size) if row != column)
            for column in range(self._size)
        ]
        self.explored = 0

    def _can_follow(self, precedence: Precedence, row: int, column: int) -> bool:
        """Whether some legal order has the column's operation directly after the row's (or first, after the start)."""
        if row == precedence.size:
            return not precedence.ancestors[column]
        if row == column or precedence.ancestors[row] >> column & 1:
            return False
        return not precedence.descendants[row] & precedence.ancestors[column]

    def run(self, stop: Stop, cutoff: int | None) -> tuple[tuple[int, ...] | None, int]:
        """The best order found (None when none is) and a bound on the change-over seconds, FORBIDDEN when there is
        none.
        """
        if self.root >= FORBIDDEN:
            return None, FORBIDDEN
        best: tuple[int, ...] | None = None
        limit = FORBIDDEN if cutoff is None else min(cutoff, FORBIDDEN)
        proved = self.root
        width: int | None = FIRST_WIDTH
        while True:
            order, seconds, bound = self._pass(width, limit, stop if width != FIRST_WIDTH else None)
            if order is not None and (best is None or seconds < limit):
                best, limit = order, min(limit, seconds)
            proved = max(proved, min(bound, limit))
            if proved >= limit or width is None or (stop is not None and stop()):
                break
            if width == FIRST_WIDTH and self._few(stop):
                width = None
            else:
                width *= WIDER
                if width * self._size > MOST_STATES:
                    break
        if best is None and proved < FORBIDDEN:
            best = self._pass(FIRST_WIDTH, FORBIDDEN, None)[0]
        return best, proved

    def _few(self, stop: Stop) -> bool:
        """Whether there are no more than MOST_IDEALS ideals; counting stops there, or when told to."""
        layer = {0}
        count = 1
        for _ in range(self._size):
            following = set()
            for done in layer:
                undone = self._all & ~done
                for index in bits(undone):
                    if not self._before[index] & undone:
                        following.add(done | 1 << index)
                if count + len(following) > MOST_IDEALS:
                    return False
            count += len(following)
            if stop is not None and stop():
                return False
            layer = following
        return True

    def _pass(self, width: int | None, limit: int, stop: Stop) -> tuple[tuple[int, ...] | None, int, int]:
        """One run over the layers: the best order that is under the limit, its seconds, and the proved bound.

        A width of None keeps every state.
        """
        if not self._size:
            return (), 0, 0
        layers: list[Layer] = [{0: {self._size: 0}}]
        bound, cut = self.root, limit
        try:
            for _ in range(self._size):
                following = self._next(layers[-1], stop)
                if width is not None:
                    following, bound, least_cut = self._narrowed(following, width, limit, stop)
                    cut = min(cut, least_cut)
                layers.append(following)
        except _StoppedError:
            return None, limit, min(bound, cut)
        ends = {last: seconds + self._arcs[last][-1] for last, seconds in layers[-1].get(self._all, {}).items()}
        last = min(ends, key=lambda last: (ends[last], last), default=-1)
        if last < 0 or self.root + ends[last] >= limit:
            return None, limit, cut
        order, done = [last], self._all
        for layer in reversed(layers[1:-1]):
            arcs, done = [row[last] for row in self._arcs], done & ~(1 << last)
            last = min((seconds + arcs[before], before) for before, seconds in layer[done].items())[1]
            order.append(last)
        seconds = self.root + ends[order[0]]
        return tuple(reversed(order)), seconds, min(cut, seconds)

    def _next(self, layer: Layer, stop: Stop) -> Layer:
        """All states one operation further."""
        following: Layer = {}
        for done, lasts in layer.items():
            self.explored += 1
            if not self.explored & 255 and stop is not None and stop():
                raise _StoppedError
            undone = self._all & ~done
            entries = [(self._arcs[last], seconds) for last, seconds in lasts.items()]
            for index in bits(undone):
                if not self._before[index] & undone:
                    seconds = min([spent + arcs[index] for arcs, spent in entries])
                    if seconds < FORBIDDEN >> 1:
                        following.setdefault(done | 1 << index, {})[index] = seconds
        return following

    def _narrowed(self, layer: Layer, width: int, limit: int, stop: Stop) -> tuple[Layer, int, int]:
        """The most promising states that can beat the limit, the least bound of all, the least of those cut away."""
        scored = []
        for count, (done, lasts) in enumerate(layer.items()):
            if not count & 255 and stop is not None and stop():
                raise _StoppedError
            undone = self._all & ~done
            entered = [(index, self._least_into(index, undone)) for index in bits(undone)]
            rest = self.root + sum([least for _, least in entered])
            for last, seconds in lasts.items():
                arcs = self._arcs[last]
                to_come = rest + min([arcs[index] - least for index, least in entered]) if entered else rest
                bound = seconds + max(self.root, to_come)
                if bound < limit:
                    scored.append((bound, done, last))
        scored.sort()
        kept: Layer = {}
        for _, done, last in scored[:width]:
            kept.setdefault(done, {})[last] = layer[done][last]
        return kept, scored[0][0] if scored else limit, scored[width][0] if len(scored) > width else limit

    def _least_into(self, index: int, undone: int) -> int:
        """The least change-over into an operation from another one that is not done."""
        for seconds, row in self._into[index]:
            if row & undone:
                return seconds
        return FORBIDDEN
