"""Times of a plan: what they consist of, how they spread, where they go, what an assembly takes to maintain."""

from splitpin.timing.allowance import Allowance
from splitpin.timing.elements import Element
from splitpin.timing.estimate import Estimate, PossibleEvent, estimate
from splitpin.timing.pace import Pace, usual_pace
from splitpin.timing.spread import Spread

__all__ = [
    "Allowance",
    "Element",
    "Estimate",
    "Pace",
    "PossibleEvent",
    "Spread",
    "estimate",
    "usual_pace",
]
