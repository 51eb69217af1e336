"""Operations that some best order does together, gathered before the search; only for problems without waits.

Bringing an operation forward to a moment when its tools are in the hands at its place, or putting it off to such a
moment, costs nothing, because it leaves everything as it is and the triangle inequality lets it go from where it was.
By hand: two screws at the front with one driver, and a panel that both hold: one visit to the front in every best
order.

Two rules add precedence that some best order keeps. Forward: where a needs nothing more than b does and fits b's
tools and place, a goes before b, for it can be done just before b. Off: where nothing waits for a but what waits for
b too, a goes after b, for it can be done just after b. Then an operation that comes directly after (or only before)
one that it fits is bundled with it. Each step keeps at least one best order of what the steps before it left. Our own
rules.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from splitpin.ordering.precedence import bits


@dataclass(frozen=True, slots=True)
class Bundle:
    """Operations done in one go: their tool kind and position (-1 for as it is), bundles before, members as a set."""

    tools: int
    place: int
    ancestors: int
    members: int


def bundles(tools: Sequence[int], places: Sequence[int], ancestors: Sequence[int]) -> list[Bundle]:
    """The bundles, each of higher number than all before it. Cost: square of the operations, times a few rounds."""
    gathering = _Gathering(tools, places, ancestors)
    gathering.add_precedence()
    gathering.merge()
    return gathering.result()


class _Gathering:
    def __init__(self, tools: Sequence[int], places: Sequence[int], ancestors: Sequence[int]) -> None:
        size = len(tools)
        self.tools, self.places = tools, places
        self.members = [1 << index for index in range(size)]
        self.before = list(ancestors)
        self.after = [0] * size
        for index in range(size):
            for earlier in bits(ancestors[index]):
                self.after[earlier] |= 1 << index
        # fitting[b]: operations that can be done with b's tools at b's place.
        self.fitting = [
            sum(
                1 << index
                for index in range(size)
                if index != host and tools[index] in (-1, tools[host]) and places[index] in (-1, places[host])
            )
            for host in range(size)
        ]

    def add_precedence(self) -> None:
        before, after = self.before, self.after
        changed = True
        while changed:
            changed = False
            for host, fitting in enumerate(self.fitting):
                for guest in bits(fitting):
                    if (before[host] | after[host]) >> guest & 1:
                        continue
                    if not before[guest] & ~before[host]:
                        self._precede(guest, host)
                        changed = True
                    elif not after[guest] & ~after[host]:
                        self._precede(host, guest)
                        changed = True

    def _precede(self, first: int, second: int) -> None:
        above, below = self.before[first] | 1 << first, self.after[second] | 1 << second
        for index in bits(above):
            self.after[index] |= below
        for index in bits(below):
            self.before[index] |= above

    def merge(self) -> None:
        changed = True
        while changed:
            changed = False
            for host, fitting in enumerate(self.fitting):
                if not self.members[host]:
                    continue
                for guest in bits(fitting):
                    if self.members[guest] and (
                        self.before[guest] == self.before[host] | 1 << host
                        or (self.after[guest] == self.after[host] | 1 << host)
                    ):
                        self._take_in(host, guest)
                        changed = True

    def _take_in(self, host: int, guest: int) -> None:
        """The guest becomes part of the host; whatever waits for one of them waits for both."""
        self.members[host] |= self.members[guest]
        self.members[guest] = 0
        gone, kept = ~(1 << guest), 1 << host
        before = (self.before[host] | self.before[guest]) & gone & ~kept
        after = (self.after[host] | self.after[guest]) & gone & ~kept
        self.before[host], self.after[host] = before, after
        for index in bits(after):
            self.before[index] = (self.before[index] | before | kept) & gone
        for index in bits(before):
            self.after[index] = (self.after[index] | after | kept) & gone

    def result(self) -> list[Bundle]:
        kept = [index for index, members in enumerate(self.members) if members]
        kept.sort(key=lambda index: (self.before[index].bit_count(), index))
        numbers = {index: number for number, index in enumerate(kept)}
        return [
            Bundle(
                self.tools[index],
                self.places[index],
                sum(1 << numbers[earlier] for earlier in bits(self.before[index])),
                self.members[index],
            )
            for index in kept
        ]
