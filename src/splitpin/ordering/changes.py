"""The least change-overs of one sort (tools alone, or positions alone) that the operations still undone can need.

Every operation is of one kind (a tool set, a position) or of none; going from kind to kind costs a matrix entry that
obeys the triangle inequality. By hand: kinds a, b, a must follow each other and each change costs 10, so from nothing
in hand the least is 30; if the second a may come first it is 20.

Exact because of one fact: an operation of the kind at hand whose predecessors are done can be done at once. It leaves
the kind as it is, and the triangle inequality lets it be taken out of its later place for nothing. So a state is
closed under such moves, and only the choice of the next kind is left. Our own rule.
"""

from collections.abc import Sequence


class LeastChanges:
    """Exact least change-overs of one sort, remembered per set of operations done.

    kinds[i]: kind of operation i or -1. cost_s[a][b]: seconds from kind a to kind b. ancestors: as in Precedence.
    Cost: grows with the number of closed sets, which is small when each kind is visited few times.
    """

    def __init__(self, kinds: Sequence[int], cost_s: Sequence[Sequence[int]], ancestors: Sequence[int]) -> None:
        self._cost_s = cost_s
        self._count = len(cost_s)
        self._mask = sum(1 << index for index, kind in enumerate(kinds) if kind >= 0)
        self._blocks: list[list[tuple[int, int]]] = [[] for _ in cost_s]
        blocks: dict[tuple[int, int], int] = {}
        for index, kind in enumerate(kinds):
            if kind >= 0:
                block = kind, ancestors[index] & self._mask
                blocks[block] = blocks.get(block, 0) | 1 << index
        for (kind, needed), members in blocks.items():
            self._blocks[kind].append((needed, members))
        self._memo: dict[int, int] = {}

    def __call__(self, done: int, kind: int) -> int:
        """Least seconds of change-overs from a state: done (a set as bits) and the kind at hand."""
        key = (done & self._mask) * self._count + kind
        known = self._memo.get(key)
        if known is None:
            known = self._memo[key] = self._rest(self._closed(done & self._mask, kind), kind)
        return known

    def _closed(self, done: int, kind: int) -> int:
        for needed, members in self._blocks[kind]:
            if needed & done == needed:
                done |= members
        return done

    def _rest(self, done: int, kind: int) -> int:
        if done == self._mask:
            return 0
        key = done * self._count + kind
        known = self._memo.get(key)
        if known is not None:
            return known
        best = -1
        for other, blocks in enumerate(self._blocks):
            after = done
            for needed, members in blocks:
                if needed & after == needed:
                    after |= members
            if after != done:
                seconds = self._cost_s[kind][other] + self._rest(after, other)
                if best < 0 or seconds < best:
                    best = seconds
        self._memo[key] = best
        return best
