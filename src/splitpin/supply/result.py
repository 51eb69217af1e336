"""The answer: what is aboard in the end, what that costs, and how far from best it can be."""

from dataclasses import dataclass

SCALE = 1_000_000  # parts of the unit of money in which expected costs are whole numbers


@dataclass(frozen=True, slots=True)
class Load:
    """`counts` says how many pieces of each item are wanted aboard; `drawn` how many of these come from the store.

    `cost` and `bound` are expected costs (carrying + return visits) in millionths of the problem's unit of money, by
    the cautious rule of `claims`; no load costs less than `bound`. `cuts` counts the minimum cuts that were found.
    """

    counts: tuple[int, ...]
    drawn: tuple[int, ...]
    cost: int
    bound: int
    cuts: int = 0

    @property
    def proved(self) -> bool:
        """Whether no load can be better."""
        return self.cost <= self.bound

    @property
    def gap(self) -> float:
        """How far from best it can be, as a share of its own cost; 0 means proved best."""
        return 0.0 if self.proved else (self.cost - self.bound) / self.cost
