"""What a set begun still costs at least, and one way to finish it.

Given the nodes already in the set, some choices are raised and not yet met in any order. Whoever finishes the set
must buy at least one article of every *cut*: start at an unmet choice and, for each of its ways, name either an
article the way still has to buy or, when it buys nothing, an unmet choice it brings up, and go on from there. The
cheapest article of a cut is a price every completion pays; it is taken off all articles of the cut, and the next
cut is drawn in what is left, until some order meets everything at no further price. The sum of the prices is a
lower bound: no article is charged more than it costs, and every completion holds an article of every cut. A cut
without articles proves that no completion exists. What the last prices leave free is a completion. Whatever is
left of an article's price is what the bound rises by when that article is bought all the same.

By hand: a choice of {0 at 4} or {1 at 3}: cut {0, 1}, price 3; node 1 is now free, so the bound is 3 and {1} a
completion, which is therefore the least. Buying node 0 would cost at least 3 + 1.

An article is a group of nodes and charges that always come together, so they are bought at one price.

Source: the cuts are those of the landmark-cut heuristic (Helmert & Domshlak 2009, from memory) and of dual ascent
for Steiner arborescences (Wong 1984, from memory). Our own rule: of the cuts at hand the smallest goes first, and a
way is stood for by the article that the fewest other ways buy, which keeps the cuts apart.
"""

from dataclasses import dataclass

from splitpin.access.reduction import Reduction, members

CUTS_DRAWN = 4
"""New cuts drawn before a price is taken: with fewer the bound grows weak where many choices are open at once (90 needs
over 90 articles: seen up to 70 times slower with 1 than with 4); more cost more than they save. Our own trials."""


@dataclass(frozen=True, slots=True)
class Rest:
    """How a set may be finished.

    cost: every completion costs at least this much more. complete: bits of one completed set. left: for each
    article, how much more than `cost` a completion with that article costs at least (several together add up).
    """

    cost: int
    complete: int
    left: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PricedWay:
    """A way with its own bit, the articles it buys, the choices it brings up and the nodes it forces."""

    bit: int
    buys: int
    raises: int
    forces: int


class Bound:
    """Lower bounds for the sets of one reduction.

    articles: node bits of each; prices: what each costs; ways: for each choice its ways.
    One bound costs about (cuts) x (ways of the unmet choices); there are at most as many cuts as articles.
    """

    def __init__(self, reduction: Reduction) -> None:
        groups = _articles(reduction)
        self.articles = tuple(groups)
        self.prices = tuple(reduction.price(group) for group in groups)
        ways: list[list[PricedWay]] = []
        users = [0] * len(groups)
        count = 0
        for choice in reduction.choices:
            ways.append([])
            for way in choice.ways:
                buys = 0
                for number, group in enumerate(groups):
                    if group & way.forces:
                        buys |= 1 << number
                        users[number] += 1
                ways[-1].append(PricedWay(1 << count, buys, way.raises, way.forces))
                count += 1
        self.ways = tuple(tuple(some) for some in ways)
        self._rank = tuple((-user, price) for user, price in zip(users, self.prices, strict=True))
        self._buyers = [0] * len(groups)
        self._askers = [0] * len(ways)
        for number, some in enumerate(ways):
            for priced in some:
                for article in members(priced.buys):
                    self._buyers[article] |= 1 << number
                for asked in members(priced.raises):
                    self._askers[asked] |= 1 << number

    def rest(self, held: int, raised: int, barred: int = 0) -> Rest | None:
        """What finishing the set costs at least, or None when it cannot be finished.

        held: node bits closed under what they force; raised: the choices they bring up; barred: ways not to be used.
        """
        left = list(self.prices)
        costly = 0
        for number, group in enumerate(self.articles):
            if group & held:
                left[number] = 0
            else:
                costly |= 1 << number
        met, cost = 0, 0
        taken: dict[int, PricedWay] = {}
        cuts: dict[int, int] = {}
        touched = (1 << len(self.ways)) - 1
        while True:
            met = self._meet(touched, costly, barred, met, taken)
            unmet = raised & ~met
            if not unmet:
                return Rest(cost, _completed(held, raised, taken), tuple(left))
            cut, size = 0, len(left) + 1
            drawn = 0
            for start in members(unmet):
                if start not in cuts:
                    if drawn == CUTS_DRAWN:
                        continue
                    drawn += 1
                    cuts[start] = self._cut(start, met, costly, barred)
                if cuts[start].bit_count() < size:
                    cut, size = cuts[start], cuts[start].bit_count()
            if not cut:
                return None
            price = min([left[article] for article in members(cut)])
            cost += price
            touched = freed = 0
            for article in members(cut):
                left[article] -= price
                if not left[article]:
                    freed |= 1 << article
                    touched |= self._buyers[article]
            costly ^= freed
            # A cut stays one as long as none of its articles is free.
            cuts = {start: other for start, other in cuts.items() if not other & freed}

    def _meet(self, touched: int, costly: int, barred: int, met: int, taken: dict[int, PricedWay]) -> int:
        """Meets every touched choice that some order meets without buying, and whatever that lets be met."""
        touched &= ~met
        while touched:
            lowest = touched & -touched
            touched ^= lowest
            number = lowest.bit_length() - 1
            for way in self.ways[number]:
                if not (way.buys & costly or way.raises & ~met or way.bit & barred):
                    met |= lowest
                    taken[number] = way
                    touched |= self._askers[number] & ~met
                    break
        return met

    def _cut(self, start: int, met: int, costly: int, barred: int) -> int:
        """Articles of which every way of meeting the choice buys one."""
        cut, visited = 0, 1 << start
        stack = [start]
        while stack:
            for way in self.ways[stack.pop()]:
                if way.bit & barred:
                    continue
                buys = way.buys & costly
                if not buys:
                    fresh = way.raises & ~met
                    if not fresh & visited:
                        fresh &= -fresh
                        visited |= fresh
                        stack.append(fresh.bit_length() - 1)
                elif not buys & cut:
                    cut |= 1 << max(members(buys), key=self._rank.__getitem__) if buys & (buys - 1) else buys
        return cut

    def dear(self, rest: Rest, spare: int) -> int:
        """The ways whose articles leave `spare` or more of their price: with one of them it costs that much more."""
        found = 0
        for ways in self.ways:
            for way in ways:
                if sum(rest.left[article] for article in members(way.buys)) >= spare:
                    found |= way.bit
        return found

    def holding(self, forces: int) -> int:
        """The ways that force all of these nodes."""
        found = 0
        for ways in self.ways:
            for way in ways:
                if not forces & ~way.forces:
                    found |= way.bit
        return found


def _articles(reduction: Reduction) -> list[int]:
    """The costly bits that are not forced, grouped by the ways they come with."""
    costly = sum(1 << bit for bit, weight in enumerate(reduction.weights) if weight) & ~reduction.forced
    groups = [costly] if costly else []
    seen = set()
    for choice in reduction.choices:
        for way in choice.ways:
            forces = way.forces & costly
            if forces in seen:
                continue
            seen.add(forces)
            split = []
            for group in groups:
                inside = group & forces
                if inside and inside != group:
                    split.append(inside)
                    split.append(group ^ inside)
                else:
                    split.append(group)
            groups = split
    if groups:
        groups = [group for group in groups if group & _any_of(seen)]
    return groups


def _any_of(sets: set[int]) -> int:
    total = 0
    for bits in sets:
        total |= bits
    return total


def _completed(held: int, raised: int, taken: dict[int, PricedWay]) -> int:
    """The set reached from `held` when every choice takes the way that was free first."""
    done = 0
    while raised & ~done:
        number = raised & ~done
        number &= -number
        done |= number
        way = taken[number.bit_length() - 1]
        held |= way.forces
        raised |= way.raises
    return held
