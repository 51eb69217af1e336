"""A normal quantity of which neither mean nor spread is known, and what each value seen teaches about both.

The four numbers of the normal-inverse-gamma distribution are updated in closed form (A. Gelman and others, Bayesian
Data Analysis, 3rd edition, section 3.3, from memory). By hand: mean 0 with the weight of one value, shape 1, rate 1;
the value 2 is seen: mean 1, weight 2, shape 1.5, rate 1 + 1 x 1 x 4 / (2 x 2) = 2.
"""

from collections.abc import Sequence
from typing import NamedTuple


class NormalInverseGamma(NamedTuple):
    """The mean is known like from `weight` values; the variance has shape `shape` and rate `rate`, all above 0."""

    mean: float
    weight: float
    shape: float
    rate: float

    def after(self, values: Sequence[float]) -> "NormalInverseGamma":
        """What is known after more values; one by one or all at once makes no difference."""
        n = len(values)
        if n == 0:
            return self
        middle = sum(values) / n
        scatter = sum((value - middle) ** 2 for value in values)
        weight = self.weight + n
        return NormalInverseGamma(
            mean=(self.weight * self.mean + n * middle) / weight,
            weight=weight,
            shape=self.shape + n / 2,
            rate=self.rate + scatter / 2 + self.weight * n * (middle - self.mean) ** 2 / (2 * weight),
        )

    @property
    def variance(self) -> float:
        """The expected variance of a value; there is one where `shape` is above 1."""
        return self.rate / (self.shape - 1)
