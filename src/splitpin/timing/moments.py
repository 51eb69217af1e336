"""The first three moments of a time, which add up over independent times and survive a factor that they share.

By hand: two independent times of 10 and 20 min with variances 4 and 5 make 30 min with variance 9; two thirds of the
time at 0 and one third at 3 min is 1 min with variance 2 and third moment 2.
"""

import math
from collections.abc import Iterable
from typing import NamedTuple


class Moments(NamedTuple):
    """Mean, variance and third central moment; unit s, s², s³."""

    mean: float
    variance: float = 0.0
    third: float = 0.0

    @property
    def sd(self) -> float:
        """Standard deviation."""
        return math.sqrt(max(self.variance, 0.0))

    @property
    def raw(self) -> tuple[float, float, float]:
        """The moments about 0."""
        mean, variance, third = self
        return mean, variance + mean**2, third + 3 * mean * variance + mean**3

    def scaled(self, factor: float) -> "Moments":
        """Those of `factor` (>= 0) times the time."""
        return Moments(factor * self.mean, factor**2 * self.variance, factor**3 * self.third)

    def times(self, other: "Moments") -> "Moments":
        """Those of the product with an independent quantity: moments about 0 multiply."""
        return of_raw(*(a * b for a, b in zip(self.raw, other.raw, strict=True)))


def of_raw(first: float, second: float, third: float) -> Moments:
    """From the moments about 0."""
    return Moments(first, second - first**2, third - 3 * first * second + 2 * first**3)


def of_lognormal(mean: float, log_sd: float) -> Moments:
    """Of a log-normal time with this mean (>= 0) and this standard deviation of its logarithm (>= 0)."""
    w = math.exp(log_sd**2)
    return Moments(mean, mean**2 * (w - 1), mean**3 * (w - 1) ** 2 * (w + 2))


def total(parts: Iterable[Moments]) -> Moments:
    """Of the sum of independent times: mean, variance and third central moment add."""
    rows = list(parts)
    return Moments(sum(m.mean for m in rows), sum(m.variance for m in rows), sum(m.third for m in rows))


def perhaps(chance: float, time: Moments) -> Moments:
    """Of a time that is taken with this chance (0 to 1) and is nothing otherwise."""
    return of_raw(*(chance * moment for moment in time.raw))


def mixed(cases: Iterable[tuple[float, Moments]]) -> Moments:
    """Of a time that is that of one of the cases, each with its chance; the chances sum to 1."""
    rows = list(cases)
    return of_raw(*(sum(chance * time.raw[k] for chance, time in rows) for k in range(3)))
