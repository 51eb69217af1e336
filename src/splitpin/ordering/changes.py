"""The least change-overs of one sort (tools alone, or positions alone) that the operations still undone can need.

Every operation is of one kind (a tool set, a position) or of none; going from kind to kind costs a matrix entry that
obeys the triangle inequality. By hand: kinds a, b, a must follow each other and each change costs 10, so from nothing
in hand the least is 30; if the second a may come first it is 20.

Exact because of one fact: an operation of the kind at hand whose predecessors are done can be done at once. It leaves
the kind as it is, and the triangle inequality lets it be taken out of its later place for nothing. So a state is
closed under such moves and only the next kind is left to choose. Three rules shorten the choice. A kind that lies on
the cheapest way to another is taken on the way. A kind that can be finished now, and whose tools help no other kind, is
finished now: it must be entered once more in any case. And no choice is looked at that a simple count forbids: a kind
must be entered as often as the longest chain of its undone operations is broken by operations of other kinds. Our own
rules.
"""

from collections.abc import Callable, Sequence
from functools import lru_cache

from splitpin.ordering.precedence import bits

Stop = Callable[[], bool]

Blocks = list[tuple[int, int]]
"""Pairs (what must be done before, operations that need just that), both as sets, in an order that respects itself."""


def never() -> bool:
    """For who lets a search go on to its end."""
    return False


class LeastChanges:
    """Exact least change-overs of one sort, remembered per set of operations done.

    kinds[i]: kind of operation i or -1. cost_s[a][b]: seconds from kind a to kind b. ancestors[i]: operations before i,
    all of lower number. stop: once it says True what is not known yet is only counted, which is a bound. Cost: grows
    with the number of closed sets, which is small when each kind is visited few times.
    """

    def __init__(
        self, kinds: Sequence[int], cost_s: Sequence[Sequence[int]], ancestors: Sequence[int], stop: Stop = never
    ) -> None:
        self._stop = stop
        count = len(cost_s)
        self._cost_s, self._count = cost_s, count
        self.mask = sum(1 << index for index, kind in enumerate(kinds) if kind >= 0)
        blocks: list[dict[int, int]] = [{} for _ in cost_s]
        for index, kind in enumerate(kinds):
            if kind >= 0:
                needed = ancestors[index] & self.mask
                blocks[kind][needed] = blocks[kind].get(needed, 0) | 1 << index
        self._blocks: list[Blocks] = [list(block.items()) for block in blocks]
        self._members = [sum(members for _, members in block) for block in self._blocks]
        kinds_used = [kind for kind in range(count) if self._members[kind]]
        self._used = [(kind, self._members[kind], self._blocks[kind]) for kind in kinds_used]
        self._way, least, self._helps_none, self._alone = _sights(tuple(map(tuple, cost_s)))
        descendants = [0] * len(kinds)
        for index, earlier in enumerate(ancestors):
            for ancestor in bits(earlier):
                descendants[ancestor] |= 1 << index
        self._entries = [
            (least[kind], members)
            for kind in kinds_used
            if least[kind]
            for members in self._rounds(kind, ancestors, descendants)
        ]
        self._memo: dict[int, int] = {}

    def _rounds(self, kind: int, ancestors: Sequence[int], descendants: Sequence[int]) -> list[int]:
        """Sets of operations of a kind: while one of the k-th set is undone the kind must be entered k times more."""
        others = self.mask & ~self._members[kind]
        rounds: dict[int, int] = {}
        mine = list(bits(self._members[kind]))
        for place in reversed(range(len(mine))):
            index, most = mine[place], 1
            for later in mine[place + 1 :]:
                if ancestors[later] >> index & 1:
                    broken = ancestors[later] & descendants[index] & others != 0
                    most = max(most, rounds[later] + broken)
            rounds[index] = most
        return [
            sum(1 << index for index, most in rounds.items() if most >= wanted)
            for wanted in range(1, max(rounds.values()) + 1)
        ]

    def __call__(self, done: int, kind: int) -> int:
        """Least seconds of change-overs from a state: done (a set) and the kind at hand."""
        done &= self.mask
        key = done * self._count + kind
        known = self._memo.get(key)
        if known is None:
            known = self._memo[key] = self._rest(self._closed(done, kind), kind)
        return known

    @property
    def remembered(self) -> int:
        """How many states it remembers."""
        return len(self._memo)

    def quick(self, done: int, kind: int) -> int:
        """A lower bound on the same by counting alone."""
        return self._least_entries(self._closed(done & self.mask, kind))

    def _closed(self, done: int, kind: int) -> int:
        for needed, members in self._blocks[kind]:
            if needed & done == needed:
                done |= members
        return done

    def _least_entries(self, done: int) -> int:
        """What the count of entries alone forbids to be less, from a closed set."""
        undone = self.mask & ~done
        return sum([seconds for seconds, members in self._entries if members & undone])

    def _rest(self, done: int, kind: int) -> int:
        """The same for a state that is closed."""
        spent, passed = 0, []
        while done != self.mask:
            key = done * self._count + kind
            known = self._memo.get(key)
            if known is not None:
                spent += known
                break
            passed.append((key, spent))
            choices = self._choices(done, kind)
            if len(choices) > 1:
                spent += self._least_of(choices, done, kind)
                break
            other, done = choices[0]
            spent += self._cost_s[kind][other]
            kind = other
        for key, before in passed:
            self._memo[key] = spent - before
        return spent

    def _choices(self, done: int, kind: int) -> list[tuple[int, int]]:
        """The kinds worth going to next, each with the closed set it leads to."""
        open_kinds = 0
        choices = []
        for other, everything, blocks in self._used:
            if everything & ~done:
                after = done
                for needed, members in blocks:
                    if needed & after == needed:
                        after |= members
                if after != done:
                    if self._alone[other] and self._helps_none[kind] and not everything & ~after:
                        return [(other, after)]
                    open_kinds |= 1 << other
                    choices.append((other, after))
        way = self._way[kind]
        return [choice for choice in choices if not way[choice[0]] & open_kinds]

    def _least_of(self, choices: list[tuple[int, int]], done: int, kind: int) -> int:
        """The least over several choices; the promising ones first, and no more once the rest can't be better."""
        cost_s = self._cost_s[kind]
        least = self._least_entries(done)
        if self._stop():
            return least
        best = -1
        for bound, other, after in sorted(
            [(cost_s[other] + self._least_entries(after), other, after) for other, after in choices]
        ):
            if 0 <= best <= bound:
                break
            seconds = cost_s[other] + self._rest(after, other)
            if best < 0 or seconds < best:
                best = seconds
                if best == least:
                    break
        return best


@lru_cache(maxsize=64)
def _sights(cost_s: tuple[tuple[int, ...], ...]) -> tuple[list[list[int]], list[int], list[bool], list[bool]]:
    """What a matrix says by itself: what lies on the way, the least entry into each kind, which kinds help no other,
    and which of those are entered for the same from everywhere. Problems that are bounded one after the other share it.
    """
    kinds = range(len(cost_s))
    others = [[other for other in kinds if other != kind] for kind in kinds]
    least = [min((cost_s[other][kind] for other in others[kind]), default=0) for kind in kinds]
    most = [max((cost_s[other][kind] for other in others[kind]), default=0) for kind in kinds]
    helps_none = [all(cost_s[kind][other] == most[other] for other in others[kind]) for kind in kinds]
    alone = [helps_none[kind] and least[kind] == most[kind] for kind in kinds]
    return on_the_way(cost_s), least, helps_none, alone


def on_the_way(cost_s: Sequence[Sequence[int]]) -> list[list[int]]:
    """[a][b]: the set of kinds that can be passed from a to b for nothing more; of two that pass each other one."""
    kinds = range(len(cost_s))
    return [
        [
            sum(
                1 << middle
                for middle in kinds
                if middle not in (start, end)
                and row[middle] + cost_s[middle][end] <= row[end]
                and (middle < end or row[end] + cost_s[end][middle] > row[middle])
            )
            for end in kinds
        ]
        for start, row in enumerate(cost_s)
    ]
