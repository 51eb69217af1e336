"""The answer: in which sequence to check, and how the search ended."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CheckOrder:
    """`order` holds every suspect once. `weighted_s` is the expected time times the sum of the weights, a whole number.

    `gap` bounds `weighted_s` from the best one; 0 means proved best.
    """

    order: tuple[int, ...]
    weighted_s: int
    total_weight: int
    gap: int = 0

    @property
    def expected_s(self) -> float:
        """Expected seconds until the fault is found."""
        return self.weighted_s / self.total_weight

    @property
    def proved(self) -> bool:
        """Whether no sequence can be better."""
        return self.gap == 0
