"""Which spares to keep for so much money, so that as few pieces as possible are missing on average.

Each further piece of a part takes less off what is missing, and each costs the same. Taking the piece that takes off
most for its cost, again and again, gives choices that no other beats at their cost (the efficient frontier, marginal
allocation; B. Fox, 1966, from memory), but not the best for a sum that lies between two of them. By hand: a piece of A
costs 3 and takes off 0.6, then 0.2; one of B costs 2 and takes off 0.3. With 4 the frontier buys A and stops at 3; with
5 it buys A and B. With 2 it buys nothing, for A does not fit; B is best.

The best is found by a dynamic programme over the money spent. A price on money, that of the frontier's first piece that
does not fit, gives each count of a part its loss against the best count at this price; the losses add up, and what has
lost more than the frontier's own choice is dropped (Lagrangean bound; our own arrangement).
"""

import heapq
import math
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

ENOUGH = 1e-9  # pieces; less is rounding
_MOST = 200_000  # choices that are looked at for one part

_Label = tuple[int, float, float, tuple[Any, ...]]  # cost, pieces missing, lost, and (what was chosen before, count)


class Spare(NamedTuple):
    """One part: the `cost` of a piece in whole units of money, at least 0; `missing` on average with 0, 1, 2, ... kept.

    Pieces missing fall, and each piece takes off less than the one before; no more are kept than the table tells of.
    """

    cost: int
    missing: tuple[float, ...]


class Kept(NamedTuple):
    """How many of each spare, what they cost, the pieces then missing, and what no choice can go below."""

    counts: tuple[int, ...]
    cost: int
    missing: float
    bound: float

    @property
    def proved(self) -> bool:
        """Whether no choice for the money misses fewer."""
        return self.missing - self.bound <= ENOUGH


def frontier(spares: Sequence[Spare]) -> Iterator[tuple[int, float]]:
    """The pieces in the order in which they take off most for their cost: whose each is, and what it takes off for it.

    Of equal ones the first. Takes time with the pieces, times the logarithm of the parts.
    """
    heap = [(-_worth(spare, 0), at, 0) for at, spare in enumerate(spares) if len(spare.missing) > 1]
    heapq.heapify(heap)
    while heap:
        worth, at, n = heap[0]
        yield at, -worth
        if n + 2 < len(spares[at].missing):
            heapq.heapreplace(heap, (-_worth(spares[at], n + 1), at, n + 1))
        else:
            heapq.heappop(heap)


def best_spares(spares: Sequence[Spare], money: int, *, most: int = _MOST) -> Kept:
    """The choice that costs no more than `money` (at least 0) and misses the fewest pieces; of equal ones the cheapest.

    Where more than `most` choices would have to be looked at, the best choice by the frontier, with its bound. Takes
    time with the pieces times the choices held: at most one for each unit of money, mostly far fewer.
    """
    counts, price = _bought(spares, money)
    first = _kept(spares, counts, -math.inf)
    if price is None:
        return first._replace(bound=first.missing)
    losses = [_losses(spare, price) for spare in spares]
    best = sum(min(missing + price * spare.cost * n for n, missing in enumerate(spare.missing)) for spare in spares)
    bound = best - price * money
    found = _searched(spares, losses, money, first.missing - bound, most)
    if found is None:
        return first._replace(bound=min(bound, first.missing))
    others = (_kept(spares, row, -math.inf) for row in found)
    chosen = min((first, *others), key=lambda row: (round(row.missing / ENOUGH), row.cost, [-n for n in row.counts]))
    return chosen._replace(bound=chosen.missing)


def _worth(spare: Spare, n: int) -> float:
    """What the piece after `n` takes off for its cost."""
    return (spare.missing[n] - spare.missing[n + 1]) / spare.cost if spare.cost else math.inf


def _bought(spares: Sequence[Spare], money: int) -> tuple[tuple[int, ...], float | None]:
    """The frontier's pieces that fit, one after the other, and the worth of the first that does not; None if all do."""
    counts = [0] * len(spares)
    price = None
    for at, worth in frontier(spares):
        if spares[at].cost <= money:
            money -= spares[at].cost
            counts[at] += 1
        elif price is None:
            price = worth
    return tuple(counts), price


def _kept(spares: Sequence[Spare], counts: tuple[int, ...], bound: float) -> Kept:
    rows = list(zip(spares, counts, strict=True))
    return Kept(counts, sum(spare.cost * n for spare, n in rows), math.fsum(s.missing[n] for s, n in rows), bound)


def _losses(spare: Spare, price: float) -> list[float]:
    """What each count loses against the best one, with money at this price."""
    values = [missing + price * spare.cost * n for n, missing in enumerate(spare.missing)]
    return [value - min(values) for value in values]


def _searched(
    spares: Sequence[Spare], losses: Sequence[Sequence[float]], money: int, slack: float, most: int
) -> list[tuple[int, ...]] | None:
    """Every choice that may be best, where each has lost no more than `slack`; None where they are more than `most`."""
    held: list[_Label] = [(0, 0.0, 0.0, ())]
    for spare, lost in zip(spares, losses, strict=True):
        counts = [n for n, loss in enumerate(lost) if loss <= slack + ENOUGH]
        if len(held) * len(counts) > most:
            return None
        wider = [
            (cost + n * spare.cost, missing + spare.missing[n], loss + lost[n], (before, n))
            for cost, missing, loss, before in held
            for n in counts
            if loss + lost[n] <= slack + ENOUGH and cost + n * spare.cost <= money
        ]
        held, least = [], math.inf
        for label in sorted(wider, key=lambda label: label[:2]):
            if label[1] < least:
                least = label[1]
                held.append(label)
    return [_counts(before) for _, missing, _, before in held if missing <= held[-1][1] + ENOUGH]


def _counts(before: tuple[Any, ...]) -> tuple[int, ...]:
    """The counts of a label, from the first part on."""
    found = []
    while before:
        before, n = before
        found.append(n)
    return tuple(reversed(found))
