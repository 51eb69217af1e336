"""One fault is there; each check finds or clears one suspect, and covers must come off before some checks.

The sequence that finds the fault soonest on average is wanted. By hand: suspects A (weight 1, 10 s) and B (weight 3,
20 s, behind a cover of 10 s). A first: 10 s always, then 30 s in three cases of four: 10 + 30 * 3/4 = 32.5 s.
B first: 30 + 10 * 1/4 = 32.5 s: equal.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CheckProblem:
    """Suspects numbered 0..n-1, openings numbered 0..m-1; everything in whole numbers, so that answers are exact.

    `weights` are relative likelihoods (1 or more), `seconds` those of each check (0 or more), `behind` the openings
    that each check needs, `opening_seconds` those of each opening, spent once: what is open stays open.
    """

    weights: tuple[int, ...]
    seconds: tuple[int, ...]
    behind: tuple[frozenset[int], ...]
    opening_seconds: tuple[int, ...]

    def __post_init__(self) -> None:
        if not len(self.weights) == len(self.seconds) == len(self.behind):
            raise ValueError("weights, seconds and behind must be of one length")
        if any(weight < 1 for weight in self.weights):
            raise ValueError("a weight is 1 or more")
        if any(value < 0 for value in (*self.seconds, *self.opening_seconds)):
            raise ValueError("seconds are 0 or more")
        if any(not 0 <= opening < len(self.opening_seconds) for needed in self.behind for opening in needed):
            raise ValueError("an opening that is not there")
