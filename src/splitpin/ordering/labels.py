"""Labels of a search when waits run by themselves: what is done, and what can follow.

A label is (operations done, stance, worker free at, when each waiting operation may begin). By hand: switch off (10 s,
then 100 s cooling), open the cover (30 s, cold only), sort the parts (60 s, any time): switch off, sort, cover ends at
10 + 100 + 30 = 140 s; sorting first ends at 60 + 10 + 100 + 30 = 200 s.

What may be done at once: call an operation ready when its waits are over, when every other undone operation that
starts a wait comes after it anyway (or it takes no time), and when no operation that may still idle leans on what it
fetches (has no tools where it has, or no position where it has). Bringing a ready operation forward from its later
place delays what is between by its own seconds at most, starts no wait later, and the worker is free after its old
place no later than before with no set-up lost. So a ready operation without set-up is done at once, and an operation
is not gone to while a ready one lies on the way. (Leaning matters: an operation done in idle time can fetch the tools
for one that follows a wait; brought forward it would fetch them too early.) Our own rules.
"""

from typing import NamedTuple

from splitpin.ordering.hands import FORBIDDEN, Hands, Pairwise
from splitpin.ordering.parts import RestTogether, least_setups
from splitpin.ordering.precedence import Precedence, bits

Releases = tuple[int, ...]


class Label(NamedTuple):
    done: int
    stance: int
    now: int
    releases: Releases


class Standing(NamedTuple):
    """What follows from the set of operations done alone."""

    work: int
    available: tuple[int, ...]
    starters: int
    heads: tuple[tuple[int, int, int, int], ...]
    """Per lag that has not started: slot of the waiting operation, its predecessor, work from now to the end of the
    wait, and all operations but those that this work is.
    """
    may_idle: int
    """The operations before which the worker may have to wait for a lag that has not started, as a set."""


class Labels:
    """The labels of one problem.

    quick: bounds at sight, for who asks for the first bound alone. tolls: what lies on the way is asked of set-ups and
    changes, not of set-ups alone.
    """

    def __init__(self, hands: Hands, precedence: Precedence, *, quick: bool = False, tolls: bool = False) -> None:
        self.hands, self.precedence = hands, precedence
        self._steps = hands.tolls.steps if tolls else hands.steps
        self._quick = quick
        self.rest = hands.rest if quick or isinstance(hands, Pairwise) else RestTogether(hands, precedence, hands.rest)
        self.everything = (1 << precedence.size) - 1
        self.waiters = [index for index, lags in enumerate(precedence.lags) if lags]
        self._slot = {index: slot for slot, index in enumerate(self.waiters)}
        self._started: list[list[tuple[int, int]]] = [[] for _ in range(precedence.size)]
        for waiter in self.waiters:
            for predecessor, lag in precedence.lags[waiter]:
                self._started[predecessor].append((self._slot[waiter], lag))
        self._families = [1 << waiter | precedence.descendants[waiter] for waiter in self.waiters]
        self.no_releases = (0,) * len(self.waiters)
        self._within: dict[int, int] = {}
        self._standings: dict[int, Standing] = {}
        self._tails = self._find_tails()
        self._links = self._find_links()

    def start(self) -> Label:
        return Label(0, self.hands.start, 0, self.no_releases)

    def _find_tails(self) -> list[int]:
        """Per operation, seconds that must pass from its end to the end of all; in full for those that wait alone, for
        what follows any other is also counted with the one that waits before it.
        """
        precedence, seconds = self.precedence, self.hands.seconds
        tails = [0] * precedence.size
        for index in reversed(range(precedence.size)):
            if index in self._slot and precedence.descendants[index]:
                tails[index] = max(tails[index], self._work_after(index, precedence.descendants[index]))
            lags = dict(precedence.lags[index])
            for earlier in bits(precedence.before[index]):
                tails[earlier] = max(tails[earlier], lags.get(earlier, 0) + seconds[index] + tails[index])
        return tails

    def _find_links(self) -> dict[tuple[int, int], list[tuple[int, int]]]:
        """Per lag (slot of the waiting operation, its predecessor): the slots before it that its predecessor is or
        comes after, and least seconds from when that one can begin to the end of the lag.
        """
        precedence, seconds = self.precedence, self.hands.seconds
        links: dict[tuple[int, int], list[tuple[int, int]]] = {}
        for slot, waiter in enumerate(self.waiters):
            for starter, lag in precedence.lags[waiter]:
                links[slot, starter] = []
                for earlier, first in enumerate(self.waiters[:slot]):
                    if self._families[earlier] >> starter & 1:
                        between = (precedence.ancestors[starter] | 1 << starter) & precedence.descendants[first]
                        rest = self._work_after(first, between) if between else 0
                        links[slot, starter].append((earlier, seconds[first] + rest + lag))
        return links

    def _work_within(self, members: int) -> int:
        """Least seconds from the beginning of the first of these operations, when all others are done before."""
        known = self._within.get(members)
        if known is None:
            work = sum(self.hands.seconds[index] for index in bits(members))
            known = self._within[members] = work + self._setups(members)
        return known

    def _work_after(self, first: int, members: int) -> int:
        """Least seconds from the end of an operation to the end of others (a set, not empty) that all come after it."""
        work = sum(self.hands.seconds[index] for index in bits(members))
        return work + self._setups(members, first)

    def _setups(self, members: int, first: int | None = None) -> int:
        """Least seconds of set-ups of a part, as in `hands.within`; in a search tools and positions together."""
        if self._quick or isinstance(self.hands, Pairwise):
            return self.hands.within(members, self.precedence, first)
        return least_setups(self.hands, self.precedence, members, first)

    def _standing(self, done: int) -> Standing:
        known = self._standings.get(done)
        if known is None:
            precedence, seconds = self.precedence, self.hands.seconds
            undone = self.everything & ~done
            heads = []
            for slot, waiter in enumerate(self.waiters):
                for starter, lag in precedence.lags[waiter]:
                    if undone >> starter & 1:
                        ahead = (precedence.ancestors[starter] | 1 << starter) & undone
                        work = sum(seconds[index] for index in bits(ahead)) + lag
                        heads.append((slot, starter, work, self.everything & ~ahead))
            known = self._standings[done] = Standing(
                sum(seconds[index] for index in bits(undone)),
                tuple(index for index in bits(undone) if not precedence.before[index] & undone),
                precedence.starters & undone,
                tuple(heads),
                sum(1 << self.waiters[slot] for slot in {slot for slot, *_ in heads}),
            )
        return known

    def bound(self, label: Label, limit: int = FORBIDDEN) -> int:
        """No completion of the label ends earlier; worked out no further once it reaches the limit."""
        done, stance, now, releases = label
        standing = self._standing(done)
        best = now + standing.work + self.rest(done, stance)
        if best >= limit:
            return best
        heads = list(releases)
        for slot, starter, work, others in standing.heads:
            head = now + work + self.hands.rest(others, stance)
            for earlier, chain in self._links[slot, starter]:
                if heads[earlier] > now and heads[earlier] + chain > head:
                    head = heads[earlier] + chain
            if head > heads[slot]:
                heads[slot] = head
        members = 0
        for head, slot in sorted([(-head, slot) for slot, head in enumerate(heads) if head > now]):
            waiter = self.waiters[slot]
            members |= self._families[slot]
            best = max(best, self._work_within(members) - head, self.hands.seconds[waiter] + self._tails[waiter] - head)
        return best

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
        return Label(done | 1 << index, nexts[index], end, tuple(changed))

    def may_idle(self, label: Label) -> int:
        """The undone operations before which the worker may yet have to wait."""
        idle = self._standing(label.done).may_idle
        for slot, release in enumerate(label.releases):
            if release > label.now:
                idle |= 1 << self.waiters[slot]
        return idle

    def moves(self, label: Label) -> tuple[int, ...]:
        """The operations worth doing next."""
        done, stance, now, releases = label
        standing = self._standing(done)
        costs, nexts = self.hands.row(stance)
        idle = self.may_idle(label)
        ready = []
        for index in standing.available:
            slot = self._slot.get(index)
            if slot is not None and releases[slot] > now + costs[index]:
                continue
            others = standing.starters & ~(1 << index | self.precedence.descendants[index])
            if (not others or self.hands.seconds[index] == 0) and not self.hands.leaning(index) & idle:
                if costs[index] == 0 and nexts[index] == stance:
                    return (index,)
                ready.append(index)
        if not ready or not self.hands.metric:
            return standing.available
        here = self._steps(stance)
        onward = {middle: self._steps(nexts[middle]) for middle in ready}
        return tuple(
            index
            for index in standing.available
            if not any(
                here[nexts[middle]] + onward[middle][nexts[index]] <= here[nexts[index]]
                and (
                    middle < index
                    or index not in onward
                    or here[nexts[index]] + onward[index][nexts[middle]] > here[nexts[middle]]
                )
                for middle in ready
                if middle != index
            )
        )
