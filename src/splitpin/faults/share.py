"""How often a cause is behind a symptom, and how sure that is, from few visits.

A share of which nothing is known may be anything from 0 to 1; x of n visits make it a Beta distribution (conjugate to
the binomial; A. Gelman and others, Bayesian Data Analysis, 3rd edition, section 2.4, from memory). By hand: none of 12
visits: mean 1 / 14, and below 1 - 0.05^(1/13) = 0.206 with 95 of 100.
"""

import math
from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from splitpin.faults.suspects import Cause
from splitpin.history import PastVisit

_STEPS = 500  # of the continued fraction; 20 or so do for what visits give
_TINY = 1e-300


class Share(NamedTuple):
    """A share that follows Beta(`found`, `other`), both above 0; before any visit: uniform."""

    found: float = 1.0
    other: float = 1.0

    def after(self, found: int, visits: int) -> "Share":
        """After so many visits, in `found` of which it was the cause."""
        return Share(self.found + found, self.other + visits - found)

    @property
    def mean(self) -> float:
        """The expected share."""
        return self.found / (self.found + self.other)

    def below(self, share: float) -> float:
        """The chance that the share is below this one, 0 to 1."""
        if not 0 < share < 1:
            return float(share >= 1)
        if share > (self.found + 1) / (self.found + self.other + 2):  # where the fraction of the other end is quick
            return 1 - Share(self.other, self.found).below(1 - share)
        a, b = self.found, self.other
        scale = a * math.log(share) + b * math.log1p(-share) + math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
        return math.exp(scale) / a * _fraction(share, a, b)

    def next(self, found: int, visits: int) -> float:
        """The chance that exactly `found` of the next visits have it: beta-binomial, wider than the mean alone says."""
        a, b = self.found + found, self.other + visits - found
        beta = math.lgamma(a) + math.lgamma(b) - math.lgamma(a + b)
        own = math.lgamma(self.found) + math.lgamma(self.other) - math.lgamma(self.found + self.other)
        return math.comb(visits, found) * math.exp(beta - own)

    def at(self, chance: float) -> float:
        """The share below which it is with this chance, to 1e-12 by halving."""
        low, high = 0.0, 1.0
        while high - low > 1e-12:
            middle = (low + high) / 2
            low, high = (middle, high) if self.below(middle) < chance else (low, middle)
        return (low + high) / 2


class FoundCause(NamedTuple):
    """A cause, in how many of the visits with its symptom and any cause on record it was found, and its share."""

    assembly: str
    symptom: str
    cause: Cause
    found: int
    visits: int
    share: Share


def found_causes(visits: Sequence[PastVisit]) -> tuple[FoundCause, ...]:
    """What was found behind each symptom of each assembly: by assembly and symptom, the most frequent first."""
    total: Counter[tuple[str, str]] = Counter()
    counts: Counter[tuple[str, str, Cause]] = Counter()
    for visit in visits:
        for symptom in set(visit.symptoms) if visit.found else ():
            total[visit.assembly, symptom] += 1
            counts.update((visit.assembly, symptom, cause) for cause in set(visit.found))
    rows = sorted(counts.items(), key=lambda row: (row[0][:2], -row[1], row[0][2]))
    return tuple(FoundCause(*key, found, total[key[:2]], Share().after(found, total[key[:2]])) for key, found in rows)


def _fraction(x: float, a: float, b: float) -> float:
    """The continued fraction of the incomplete beta function (NIST DLMF 8.17.22, from memory), by Lentz's method."""
    c, d = 1.0, 1 / _off_zero(1 - (a + b) * x / (a + 1))
    value = d
    for m in range(1, _STEPS):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        before = value
        for term in (even, odd):
            d = 1 / _off_zero(1 + term * d)
            c = _off_zero(1 + term / c)
            value *= c * d
        if abs(value - before) <= 1e-15 * abs(value):
            break
    return value


def _off_zero(number: float) -> float:
    return number if abs(number) > _TINY else _TINY
