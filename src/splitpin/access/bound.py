"""What a set begun still costs at least, and one way to finish it.

Given the nodes already in the set, some choices are raised and not yet met in any order. Whoever finishes the set
must buy at least one article of every *cut*: start at an unmet choice and, for each of its ways, name either an
article the way still has to buy or, when it buys nothing, an unmet choice it raises, and go on from there. The
cheapest article of a cut is a price every completion pays; it is taken off all articles of the cut, and the next
cut is drawn in what is left, until some order meets everything at no further price. The sum of the prices is a
lower bound: no article is charged more than it costs, and every completion holds an article of every cut. A cut
without articles proves that no completion exists. What the last prices leave free is a completion.

By hand: a choice of {0 at 4} or {1 at 3}: cut {0, 1}, price 3; node 1 is now free, so the bound is 3 and {1} a
completion, which is therefore the least.

An article is a group of nodes and charges that always come together, so they are bought at one price.

Source: the cuts are those of the landmark-cut heuristic (Helmert & Domshlak 2009, from memory) and of dual ascent for
Steiner arborescences (Wong 1984, from memory); the choice of article and cut is our own rule.
"""

from splitpin.access.reduction import Reduction, members

UNREACHABLE = -1


class Bound:
    """Lower bounds for sets of one reduction, remembered by set.

    One bound costs about (number of cuts) x (ways of the unmet choices); cuts are at most the articles.
    """

    def __init__(self, reduction: Reduction) -> None:
        self._reduction = reduction
        self._known: dict[int, tuple[int, int]] = {}
        groups = self._articles(reduction)
        self.prices = tuple(reduction.price(group) for group in groups)
        self.groups = tuple(groups)
        self._ways = tuple(
            tuple(
                (self._bought(way.forces), way.raises, way.forces) for way in choice.ways
            )
            for choice in reduction.choices
        )

    @staticmethod
    def _articles(reduction: Reduction) -> list[int]:
        costly = sum(1 << bit for bit, weight in enumerate(reduction.weights) if weight) & ~reduction.forced
        groups = [costly] if costly else []
        for forces in sorted({way.forces & costly for choice in reduction.choices for way in choice.ways}):
            split = []
            for group in groups:
                inside = group & forces
                if inside and inside != group:
                    split += [inside, group ^ inside]
                else:
                    split.append(group)
            groups = split
        return groups

    def _bought(self, bits: int) -> int:
        return sum(1 << number for number, group in enumerate(self.groups) if group & bits)

    def least_rest(self, held: int, raised: int) -> tuple[int, int]:
        """(least further cost, a completed set holding `held`) or (UNREACHABLE, 0) when there is no completion.

        held: node bits closed under what they force; raised: the choices they bring up.
        """
        known = self._known.get(held)
        if known is None:
            known = self._known[held] = self._ascend(held, raised)
        return known

    def _ascend(self, held: int, raised: int) -> tuple[int, int]:
        ways = self._ways
        left = list(self.prices)
        costly = 0
        for number, group in enumerate(self.groups):
            if group & held:
                left[number] = 0
            else:
                costly |= 1 << number
        met = 0
        pending = set(range(len(ways)))
        order: list[tuple[int, int]] = []
        total = 0
        while True:
            progress = True
            while progress:
                progress = False
                for number in sorted(pending):
                    for bought, raises, forces in ways[number]:
                        if not bought & costly and not raises & ~met:
                            met |= 1 << number
                            order.append((number, forces))
                            pending.discard(number)
                            progress = True
                            break
            unmet = raised & ~met
            if not unmet:
                return total, self._completion(held, raised, order)
            first = (unmet & -unmet).bit_length() - 1
            cut = 0
            visited = 1 << first
            stack = [first]
            while stack:
                for bought, raises, _ in ways[stack.pop()]:
                    buy = bought & costly
                    if buy:
                        if not buy & cut:
                            cut |= 1 << max(members(buy), key=lambda article: left[article])
                        continue
                    rest = raises & ~met
                    if not rest & visited:
                        low = rest & -rest
                        visited |= low
                        stack.append(low.bit_length() - 1)
            if not cut:
                return UNREACHABLE, 0
            price = min(left[article] for article in members(cut))
            total += price
            for article in members(cut):
                left[article] -= price
                if not left[article]:
                    costly ^= 1 << article

    def _completion(self, held: int, raised: int, order: list[tuple[int, int]]) -> int:
        """The set reached from `held` when every choice takes the way that was free first."""
        taken = dict(order)
        choices = self._reduction.choices
        done = 0
        while raised & ~done:
            low = raised & ~done
            low &= -low
            done |= low
            number = low.bit_length() - 1
            forces = taken[number]
            if forces & ~held:
                held |= forces
                for way in choices[number].ways:
                    if way.forces == forces:
                        raised |= way.raises
                        break
        return held
