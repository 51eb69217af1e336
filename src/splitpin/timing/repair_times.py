"""Repair times as log-normals: the mean over many repairs, and the time within which a share of them is done.

Source: MIL-HDBK-338B, 5.6.2.1: with m and s the mean and standard deviation of the natural logarithms, the mean is
exp(m + s²/2), the median exp(m), the time within which a share p is done exp(m + z_p s), and the share done within t is
Phi((ln t - m) / s). By hand: times of 1 and e² hours have m = 1, s = sqrt(2), median e.
"""

import math
from collections.abc import Sequence
from statistics import NormalDist, fmean, stdev
from typing import NamedTuple

_NORMAL = NormalDist()


class RepairTimes(NamedTuple):
    """Mean and standard deviation of the natural logarithms of the times, whatever their unit."""

    mean_log: float
    sd_log: float

    @property
    def mean(self) -> float:
        """The mean time."""
        return math.exp(self.mean_log + self.sd_log**2 / 2)

    @property
    def median(self) -> float:
        """The time within which half are done."""
        return math.exp(self.mean_log)

    def within(self, p: float) -> float:
        """The time within which p of 100 are done (0 < p < 100)."""
        return math.exp(self.mean_log + _NORMAL.inv_cdf(p / 100) * self.sd_log)


def fitted(times: Sequence[float]) -> RepairTimes:
    """From observed times (at least two, all > 0); the standard deviation with n - 1."""
    logs = [math.log(time) for time in times]
    return RepairTimes(fmean(logs), stdev(logs))


def weighted_mean(rates: Sequence[float], times: Sequence[float]) -> float:
    """The mean repair time sum(rate x time) / sum(rate); rates sum to more than 0.

    Source: MIL-HDBK-338 (1984), equation 5.66.
    """
    return sum(rate * time for rate, time in zip(rates, times, strict=True)) / sum(rates)


def over_all(rates: Sequence[float], repairs: Sequence[RepairTimes]) -> RepairTimes:
    """All repairs together, each as often as its rate says: moments of the logarithms within and between repairs.

    The variance is the mean of the variances and the variance of the means (law of total variance). Our own rule.
    """
    mean = weighted_mean(rates, [repair.mean_log for repair in repairs])
    square = weighted_mean(rates, [repair.sd_log**2 + (repair.mean_log - mean) ** 2 for repair in repairs])
    return RepairTimes(mean, math.sqrt(square))
