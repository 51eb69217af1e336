"""The pace of a visit: one log-normal factor that all its hands-on time shares, so that steps are not independent."""

import math
from typing import NamedTuple

from splitpin.records.library import Library
from splitpin.timing.moments import Moments, of_lognormal


class Pace(NamedTuple):
    """Mean and standard deviation of the factor's natural logarithm, and how many recorded visits they rest on.

    The factor is what a visit takes hands-on over `Estimate.planned_s`: planning means, allowance, site and events.
    """

    log_mean: float
    log_sd: float
    visits: int = 0

    @property
    def moments(self) -> Moments:
        """Those of the factor itself."""
        return of_lognormal(self.mean, self.log_sd)

    @property
    def mean(self) -> float:
        """The expected factor."""
        return math.exp(self.log_mean + self.log_sd**2 / 2)


def usual_pace(library: Library) -> Pace:
    """The pace before any visit is on record: mean 1, and the spread of the row `pace` in `catalog/times.toml`."""
    log_sd = library.time_spreads["pace"].log_sd
    return Pace(-(log_sd**2) / 2, log_sd)
