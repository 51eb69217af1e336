"""How a time is spread: its mean and standard deviation, any percentile, the chance and size of an overrun.

Totals are log-normals, moved so that three moments match (Fenton 1960 matches two): most of the spread is the pace that
all elements share, which is log-normal itself. By hand: mean 100 and standard deviation 20 without a move is the
log-normal of log-sd sqrt(ln 1.04) = 0.198 and median 100 / sqrt(1.04) = 98.1.
"""

import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import NormalDist
from typing import NamedTuple, Protocol

from splitpin.timing.moments import Moments, mixed

_NORMAL = NormalDist()
_STEPS = 60  # halvings of an interval: as fine as a float needs
_LEAST_SKEWNESS = 1e-6  # below it a moved log-normal cannot be told from the normal it tends to


class Spread(Protocol):
    """A time (s) that is not certain."""

    @property
    def mean(self) -> float:
        """The expected time."""
        ...

    @property
    def sd(self) -> float:
        """The standard deviation."""
        ...

    def percentile(self, p: float) -> float:
        """The time that is enough in p of 100 cases (0 < p < 100); ValueError outside."""
        ...

    def chance_over(self, seconds: float) -> float:
        """The chance (0 to 1) that it takes longer."""
        ...

    def expected_over(self, seconds: float) -> float:
        """By how much it runs over on average, counting the cases that do not as 0."""
        ...

    def times(self, factor: float) -> "Spread":
        """That of `factor` (> 0) times the time."""
        ...


class Lognormal(NamedTuple):
    """A log-normal moved by `shift` seconds: shift + exp(mu + sigma z). With sigma 0 a certain time."""

    shift: float
    mu: float
    sigma: float

    def at(self, z: float) -> float:
        """The time at a standard normal z, never below 0."""
        return max(0.0, self.shift + math.exp(self.mu + self.sigma * z))

    def below(self, seconds: float) -> float:
        """The chance that it takes this long at most."""
        if not self.sigma:
            return float(seconds >= self.at(0))
        if seconds <= self.shift or seconds < 0:
            return 0.0
        return _NORMAL.cdf((math.log(seconds - self.shift) - self.mu) / self.sigma)

    def over(self, seconds: float) -> float:
        """E[max(0, T - seconds)]; the partial expectation of the log-normal."""
        above = seconds - self.shift
        mean = math.exp(self.mu + self.sigma**2 / 2)
        if above <= 0 or not self.sigma:
            return max(0.0, mean - above)
        d = (self.mu - math.log(above)) / self.sigma
        return mean * _NORMAL.cdf(d + self.sigma) - above * _NORMAL.cdf(d)


def two_moments(mean: float, sd: float) -> Lognormal:
    """The log-normal with this mean (> 0) and standard deviation (L. F. Fenton, IRE Trans. CS-8 (1960) 57-67)."""
    squared = math.log1p((sd / mean) ** 2)
    return Lognormal(0.0, math.log(mean) - squared / 2, math.sqrt(squared))


def three_moments(moments: Moments) -> Lognormal:
    """The moved log-normal with these moments; without variance a certain time.

    With w = exp(sigma²), skewness = (w + 2) sqrt(w - 1), a cubic with one real root: its closed form is used
    (A. C. Cohen, B. J. Whitten, J. Am. Stat. Assoc. 75 (1980) 399-404, name the three-parameter law). Where the
    skewness is too small or negative, the two-moment one.
    """
    mean, variance, third = moments
    if variance <= 0:
        return Lognormal(mean, -math.inf, 0.0)
    skewness = third / variance**1.5
    if skewness < _LEAST_SKEWNESS:
        return two_moments(mean, moments.sd)
    half = 1 + skewness**2 / 2
    root = (half + skewness * math.sqrt(1 + skewness**2 / 4)) ** (1 / 3)
    w = root + 1 / root - 1
    scale = math.sqrt(variance / (w * (w - 1)))
    return Lognormal(mean - scale * math.sqrt(w), math.log(scale), math.sqrt(math.log(w)))


@dataclass(frozen=True, slots=True)
class Mixture:
    """One of several log-normals, each with its chance; `moments` are those of the whole."""

    cases: tuple[tuple[float, Lognormal], ...]
    moments: Moments

    @property
    def mean(self) -> float:
        """The expected time."""
        return self.moments.mean

    @property
    def sd(self) -> float:
        """The standard deviation."""
        return self.moments.sd

    def percentile(self, p: float) -> float:
        """The time that is enough in p of 100 cases, by halving between the percentiles of the cases."""
        z = _NORMAL.inv_cdf(_share(p))
        times = [law.at(z) for _, law in self.cases]
        low, high = min(times), max(times)
        for _ in range(_STEPS):
            if high - low <= 1e-9 * high:
                break
            middle = (low + high) / 2
            low, high = (middle, high) if 1 - self.chance_over(middle) < p / 100 else (low, middle)
        return high

    def chance_over(self, seconds: float) -> float:
        """The chance that it takes longer."""
        return sum(chance * (1 - law.below(seconds)) for chance, law in self.cases)

    def expected_over(self, seconds: float) -> float:
        """By how much it runs over on average, counting the cases that do not as 0."""
        return sum(chance * law.over(seconds) for chance, law in self.cases)

    def times(self, factor: float) -> "Mixture":
        """That of `factor` (> 0) times the time."""
        more = math.log(factor)
        laws = tuple((chance, Lognormal(factor * law.shift, law.mu + more, law.sigma)) for chance, law in self.cases)
        return Mixture(laws, self.moments.scaled(factor))


@dataclass(frozen=True, slots=True)
class Sample:
    """Equally likely times in rising order; at least one."""

    values: tuple[float, ...]

    @property
    def mean(self) -> float:
        """The expected time."""
        return math.fsum(self.values) / len(self.values)

    @property
    def sd(self) -> float:
        """The standard deviation."""
        mean = self.mean
        return math.sqrt(math.fsum((time - mean) ** 2 for time in self.values) / len(self.values))

    def percentile(self, p: float) -> float:
        """The time that is enough in p of 100 cases, on the straight line between neighbours."""
        place = _share(p) * len(self.values) - 0.5
        low = min(max(math.floor(place), 0), len(self.values) - 1)
        high = min(low + 1, len(self.values) - 1)
        part = min(max(place - low, 0.0), 1.0)
        return self.values[low] + part * (self.values[high] - self.values[low])

    def chance_over(self, seconds: float) -> float:
        """The chance that it takes longer."""
        return 1 - bisect_right(self.values, seconds) / len(self.values)

    def expected_over(self, seconds: float) -> float:
        """By how much it runs over on average, counting the cases that do not as 0."""
        return math.fsum(max(0.0, time - seconds) for time in self.values) / len(self.values)

    def times(self, factor: float) -> "Sample":
        """That of `factor` (> 0) times the time."""
        return Sample(tuple(factor * value for value in self.values))


def mixture(cases: Sequence[tuple[float, Moments]]) -> Mixture:
    """The spread of a time that is one of these cases; chances sum to 1."""
    whole = mixed(cases)
    return Mixture(tuple((chance, three_moments(m)) for chance, m in cases), whole)


def certain(seconds: float) -> Mixture:
    """A time without spread."""
    return mixture([(1.0, Moments(seconds))])


def sample(times: Iterable[float]) -> Sample:
    """The spread of equally likely times."""
    return Sample(tuple(sorted(times)))


def _share(p: float) -> float:
    if not 0 < p < 100:
        raise ValueError(f"a percentile lies between 0 and 100, not at {p:g}")
    return p / 100
