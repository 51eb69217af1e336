"""How many of a part visits use up, and how many to carry so that they rarely run out.

Units come at a rate that is itself uncertain: a gamma distribution, to which units used in so many visits add
(conjugate to the Poisson; A. Gelman and others, Bayesian Data Analysis, 3rd edition, section 2.6, from memory). The
next visits then follow a negative binomial. By hand: shape 2, rate 4, then 3 units in 6 visits: shape 5, rate 10;
none in the next visit has the chance (10 / 11)^5 = 0.621.
"""

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from splitpin.history import PastVisit
from splitpin.supply.need import Need

VAGUE = 0.5  # units that count as used before any visit: the usual choice where nothing is known, from memory


class Demand(NamedTuple):
    """A rate of units a visit that follows Gamma(`shape`, `rate`), both above 0."""

    shape: float
    rate: float

    def after(self, units: int, visits: float) -> "Demand":
        """After so many units in so many visits."""
        return Demand(self.shape + units, self.rate + visits)

    def over(self, visits: float) -> Need:
        """What the next visits need."""
        return Need(self.shape * visits / self.rate, visits / self.rate)


class PartUse(NamedTuple):
    """A part, how many of it were used in how many visits, and the demand that follows."""

    part: str
    units: int
    visits: int
    demand: Demand


def part_uses(visits: Sequence[PastVisit]) -> tuple[PartUse, ...]:
    """The parts that visits with any part on record used, most used first."""
    told = [visit for visit in visits if visit.parts]
    units: Counter[str] = Counter()
    for visit in told:
        for row in visit.parts:
            units[row.part] += row.quantity
    rows = sorted(units.items(), key=lambda row: (-row[1], row[0]))
    return tuple(PartUse(part, n, len(told), Demand(VAGUE + n, len(told))) for part, n in rows)
