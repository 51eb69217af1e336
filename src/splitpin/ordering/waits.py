"""Exact search when waits run by themselves: least elapsed time, hands-on and idle together.

A label is (operations done, stance, worker free at, when each waiting operation may begin). One label beats another
with the same set and stance when the worker is free no later and no wait ends later, counted from when it could
matter. By hand: switch off (10 s, then 100 s cooling), open the cover (30 s, cold only), sort the parts (60 s, any
time): switch off, sort, cover ends at 10 + 100 + 30 = 140 s; sorting first ends at 60 + 10 + 100 + 30 = 200 s.

Exact because labels are expanded in the order of a bound that never overstates, and because of one forced move: an
operation without set-up whose waits are over is done at once when every other undone operation that starts a wait
comes after it anyway (or when it takes no time). Moving it forward from its later place delays what is between by its
own seconds at most, starts no wait later, and the worker is free after its old place no later than before. Our own
rule.
"""

import heapq
from collections.abc import Callable

from splitpin.ordering.hands import FORBIDDEN, Hands
from splitpin.ordering.precedence import Precedence, bits

Label = tuple[int, int, int, tuple[int, ...]]


class Waits:
    """One search over labels. Cost: grows with the number of sets that can be done times stances times waits
    running.
    """

    def __init__(self, hands: Hands, precedence: Precedence) -> None:
        self.hands, self.precedence = hands, precedence
        self.everything = (1 << precedence.size) - 1
        self.waiters = [index for index, lags in enumerate(precedence.lags) if lags]
        self._slot = {index: slot for slot, index in enumerate(self.waiters)}
        self._started: list[list[tuple[int, int]]] = [[] for _ in range(precedence.size)]
        for waiter in self.waiters:
            for predecessor, lag in precedence.lags[waiter]:
                self._started[predecessor].append((self._slot[waiter], lag))
        self._tail = self._tails()
        self.explored = 0

    def start(self) -> Label:
        return 0, self.hands.start, 0, (0,) * len(self.waiters)

    def _tails(self) -> list[int]:
        """Per operation, seconds that must pass from its end to the end of all."""
        precedence, seconds = self.precedence, self.hands.seconds
        tails = [0] * precedence.size
        for index in reversed(range(precedence.size)):
            tails[index] = max(tails[index], sum(seconds[later] for later in bits(precedence.descendants[index])))
            lags = dict(precedence.lags[index])
            for earlier in bits(precedence.before[index]):
                tails[earlier] = max(tails[earlier], lags.get(earlier, 0) + seconds[index] + tails[index])
        return tails

    def bound(self, label: Label) -> int:
        """No completion of the label ends earlier."""
        done, stance, now, releases = label
        seconds = self.hands.seconds
        undone = self.everything & ~done
        best = now + sum(seconds[index] for index in bits(undone)) + self.hands.rest(done, stance)
        for waiter, release in zip(self.waiters, releases, strict=True):
            if release > now and undone >> waiter & 1:
                best = max(best, release + seconds[waiter] + self._tail[waiter])
        for starter in bits(self.precedence.starters & undone):
            ready = now + sum(seconds[index] for index in bits(self.precedence.ancestors[starter] & undone))
            best = max(best, ready + seconds[starter] + self._tail[starter])
        return best

    def available(self, done: int) -> list[int]:
        before = self.precedence.before
        return [index for index in bits(self.everything & ~done) if not before[index] & ~done]

    def after(self, label: Label, index: int) -> Label | None:
        """The label once the operation is done next, or None when that change-over is forbidden."""
        done, stance, now, releases = label
        costs, nexts = self.hands.row(stance)
        if costs[index] >= FORBIDDEN:
            return None
        begin = now + costs[index]
        slot = self._slot.get(index)
        if slot is not None and releases[slot] > begin:
            begin = releases[slot]
        end = begin + self.hands.seconds[index]
        changed = [release if release > end else 0 for release in releases]
        for started, lag in self._started[index]:
            changed[started] = max(changed[started], end + lag)
        if slot is not None:
            changed[slot] = 0
        return done | 1 << index, nexts[index], end, tuple(changed)

    def moves(self, label: Label) -> list[int]:
        """The operations worth doing next: one forced move, or every available operation."""
        done, stance, now, releases = label
        available = self.available(done)
        costs, nexts = self.hands.row(stance)
        starters = self.precedence.starters & ~done
        idle = 0
        for waiter, release in zip(self.waiters, releases, strict=True):
            if not done >> waiter & 1 and (release > now or self.precedence.ancestors[waiter] & starters):
                idle |= 1 << waiter
        for index in available:
            if costs[index] == 0 and nexts[index] == stance:
                slot = self._slot.get(index)
                if slot is not None and releases[slot] > now:
                    continue
                others = starters & ~(1 << index | self.precedence.descendants[index])
                if (not others or self.hands.seconds[index] == 0) and not self.hands.leaning(index) & idle:
                    return [index]
        return available

    def dive(self, label: Label) -> tuple[int, tuple[int, ...]] | None:
        """A first answer from a label: always the next operation with the least bound, the earliest, the lowest
        number.
        """
        order = []
        while label[0] != self.everything:
            best: tuple[int, int, int, Label] | None = None
            for index in self.moves(label):
                child = self.after(label, index)
                if child is not None:
                    candidate = self.bound(child), child[2], index, child
                    if best is None or candidate[:3] < best[:3]:
                        best = candidate
            if best is None:
                return None
            order.append(best[2])
            label = best[3]
        return label[2], tuple(order)

    def run(
        self, stop: Callable[[], bool] | None, cutoff_s: int | None
    ) -> tuple[int | None, tuple[int, ...] | None, int]:
        """Elapsed seconds and order of the best found (None when none is), and the proved bound."""
        start = self.start()
        first = self.dive(start)
        best = first[0] if first else None
        order = first[1] if first else None
        limit = FORBIDDEN if best is None else best
        if cutoff_s is not None and cutoff_s < limit:
            limit = cutoff_s
        nodes: list[tuple[int, int]] = [(-1, -1)]
        heap = [(self.bound(start), self.precedence.size, 0, start)]
        seen: dict[tuple[int, int], list[tuple[int, tuple[int, ...]]]] = {}
        while heap:
            bound, remaining, node, label = heapq.heappop(heap)
            if bound >= limit:
                return best, order, limit if bound >= FORBIDDEN else min(bound, limit)
            if not remaining:
                return label[2], self._trace(nodes, node), label[2]
            self.explored += 1
            if stop is not None and not self.explored & 63 and stop():
                return best, order, bound
            for index in self.moves(label):
                child = self.after(label, index)
                if child is None:
                    continue
                bound = self.bound(child)
                if bound >= limit or self._beaten(seen, child):
                    continue
                nodes.append((node, index))
                heapq.heappush(heap, (bound, remaining - 1, len(nodes) - 1, child))
        return best, order, limit

    @staticmethod
    def _trace(nodes: list[tuple[int, int]], node: int) -> tuple[int, ...]:
        order = []
        while node:
            node, index = nodes[node]
            order.append(index)
        return tuple(reversed(order))

    @staticmethod
    def _beaten(seen: dict[tuple[int, int], list[tuple[int, tuple[int, ...]]]], label: Label) -> bool:
        """Whether a label met before is as good in every respect; if not, this one is remembered."""
        done, stance, now, releases = label
        met = seen.setdefault((done, stance), [])
        for earlier, others in met:
            if earlier <= now and all(
                other <= release or other <= now for other, release in zip(others, releases, strict=True)
            ):
                return True
        met.append((now, releases))
        return False
