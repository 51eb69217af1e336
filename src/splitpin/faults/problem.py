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
    Some openings take the supply away (`dead`); a check that needs it then takes its seconds of `again` more: the
    supply put back for it and taken away once more. `again` is empty where no check needs the supply.
    """

    weights: tuple[int, ...]
    seconds: tuple[int, ...]
    behind: tuple[frozenset[int], ...]
    opening_seconds: tuple[int, ...]
    again: tuple[int, ...] = ()
    dead: frozenset[int] = frozenset()

    def __post_init__(self) -> None:
        if not len(self.weights) == len(self.seconds) == len(self.behind):
            raise ValueError("weights, seconds and behind must be of one length")
        if any(weight < 1 for weight in self.weights):
            raise ValueError("a weight is 1 or more")
        if any(value < 0 for value in (*self.seconds, *self.opening_seconds, *self.again)):
            raise ValueError("seconds are 0 or more")
        if any(not 0 <= opening < len(self.opening_seconds) for needed in self.behind for opening in needed):
            raise ValueError("an opening that is not there")
        if self.again and len(self.again) != len(self.weights):
            raise ValueError("again must be empty or of the length of weights")

    def interrupted(self, suspect: int, opened: frozenset[int]) -> int:
        """The seconds of putting the supply back for this check, once `opened` and what it needs itself are open."""
        return self.again[suspect] if self.again and self.dead & (opened | self.behind[suspect]) else 0

    def settled(self) -> bool:
        """Whether no check's seconds depend on the sequence: each that needs the supply takes it away itself."""
        return not any(seconds and not self.dead & self.behind[one] for one, seconds in enumerate(self.again))
