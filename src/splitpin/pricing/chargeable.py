"""Chargeable time: what a firm's minimum, step and direction make of the minutes worked, and of those the money.

By hand: a minimum of an hour, then half hours, any part of one counted whole. 45 min are charged as 60, 80 as 90, 100
as 120. At 50.00 for the first hour and 30.00 an hour after it that is 50.00, 65.00 and 80.00.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from splitpin.records.charges import Labour
from splitpin.units import SECONDS_PER_MINUTE

MINUTES_PER_HOUR = 60


@dataclass(frozen=True, slots=True)
class Block:
    """So many minutes of one person at so much an hour."""

    minutes: int
    hour: Decimal

    @property
    def price(self) -> Decimal:
        """What the block costs, not yet rounded."""
        return self.hour * self.minutes / MINUTES_PER_HOUR


def whole_minutes(seconds: int) -> int:
    """Whole seconds (>= 0) as the minutes that are charged and printed: half a minute is rounded up."""
    return (seconds + SECONDS_PER_MINUTE // 2) // SECONDS_PER_MINUTE


def chargeable(worked_min: int, labour: Labour, *, return_visit: bool = False) -> int:
    """The minutes that are charged for `worked_min` (>= 0) of one person; never less than the minimum.

    Steps are counted from the end of the minimum on. `nearest` takes half a step up. A return visit has no minimum
    where the firm waives it. Our own reading of traders' published terms.
    """
    least = 0 if _waived(labour, return_visit) else labour.minimum_min
    over = max(0, worked_min - least)
    step = labour.step_min
    if labour.direction == "actual" or step is None:
        return least + over
    if labour.direction == "up":
        return least + -(-over // step) * step
    return least + (2 * over + step) // (2 * step) * step


def blocks(charged_min: int, labour: Labour, *, return_visit: bool = False) -> Iterator[Block]:
    """The charged minutes at their rates: the first ones at `first_hour`, the others at `hour`.

    The dearer first block belongs to the visit that began with it: it is not charged again where the minimum is waived.
    """
    first = 0
    if labour.first_hour is not None and labour.first_min is not None and not _waived(labour, return_visit):
        first = min(charged_min, labour.first_min)
        yield Block(first, labour.first_hour)
    if charged_min > first or not first:
        yield Block(charged_min - first, labour.hour)


def _waived(labour: Labour, return_visit: bool) -> bool:
    return return_visit and labour.return_visit == "minimum-waived"
