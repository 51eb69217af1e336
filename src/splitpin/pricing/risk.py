"""What a fixed price risks: work that takes longer than the time it charges for.

For a log-normal time X with logarithm of mean m and deviation s, and a time sold q,
E[max(X - q, 0)] = E[X] Phi((m + s^2 - ln q) / s) - q Phi((m - ln q) / s): the price of a call option without interest
(Black and Scholes 1973, from memory), with the time in place of the price. By hand: with q = 0 it is the mean; where X
is certain it is X - q or nothing.
"""

import math
from statistics import NormalDist
from typing import Protocol

_PHI = NormalDist().cdf


class Spread(Protocol):
    """A time in seconds with its spread, log-normal."""

    @property
    def mean(self) -> float:
        """The mean."""

    @property
    def sd(self) -> float:
        """The standard deviation."""

    def percentile(self, p: float) -> float:
        """The time within which `p` of a hundred are done."""

    def chance_over(self, s: float) -> float:
        """The chance, 0 to 1, of more than `s` seconds."""


def expected_over(time: Spread, sold_s: float) -> float:
    """The mean of the seconds beyond `sold_s` (>= 0), those on time counted as nought."""
    if sold_s <= 0 or time.mean <= 0:
        return max(0.0, time.mean - sold_s)
    if time.sd <= 0:
        return max(0.0, time.mean - sold_s)
    variance = math.log1p((time.sd / time.mean) ** 2)
    deviation = math.sqrt(variance)
    centre = math.log(time.mean) - variance / 2
    late = (centre - math.log(sold_s)) / deviation
    return max(0.0, time.mean * _PHI(late + deviation) - sold_s * _PHI(late))
