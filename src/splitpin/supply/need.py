"""The pieces of a part that are needed until the van is refilled, as chances of 0, 1, 2, ...

Where the rate is known for certain the number is Poisson; where the rate is itself uncertain (gamma) it is negative
binomial, and spreads more. Both obey one recursion, p(n + 1) = p(n) (mean + n doubt) / ((1 + doubt)(n + 1)) (H. Panjer,
1981, from memory). By hand: mean 1, no doubt: 0.368, 0.368, 0.184, ...; with nothing kept one piece is missing on
average, with one kept 1 - (1 - 0.368) = 0.368, with two 0.368 - (1 - 0.736) = 0.104.
"""

import math
from collections.abc import Iterator
from itertools import accumulate, count, takewhile
from typing import NamedTuple


class Need(NamedTuple):
    """`mean` pieces, above 0, with the variance mean x (1 + `doubt`); a `doubt` of 0 is a rate known for certain."""

    mean: float
    doubt: float = 0.0

    def chances(self) -> Iterator[float]:
        """The chance of exactly 0, 1, 2, ... pieces, without end."""
        log = -self.mean * (math.log1p(self.doubt) / self.doubt if self.doubt else 1.0)  # exp of it may be too small
        for n in count(1):
            yield math.exp(log)
            log += math.log((self.mean + (n - 1) * self.doubt) / ((1 + self.doubt) * n))

    def short(self) -> Iterator[float]:
        """The chance that 0, 1, 2, ... pieces kept are too few, without end; falling, never below 0."""
        return (max(0.0, 1 - enough) for enough in accumulate(self.chances()))

    def stock(self, cover: float) -> int:
        """The least number that is enough with the chance `cover`, from 0 to 1 - 1e-9.

        For one part whose missing piece costs `u` and whose piece too many costs `o`, u / (u + o) is the cover of least
        expected cost (the newsvendor's rule).
        """
        return sum(1 for _ in takewhile(lambda enough: enough < cover, accumulate(self.chances())))

    def missing(self, least: float) -> tuple[float, ...]:
        """The pieces missing on average with 0, 1, 2, ... kept, until one more is used with a chance below `least`.

        `least` is at least 1e-9 and below 1. Each piece kept takes off the chance that it is used (expected back-orders
        as in METRIC: C. Sherbrooke, 1968, from memory), so each takes off less than the one before.
        """
        used = takewhile(lambda chance: chance >= least, self.short())
        return tuple(accumulate(used, lambda missing, chance: max(0.0, missing - chance), initial=self.mean))
