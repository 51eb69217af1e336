"""What a fixed price risks: work that takes longer than the time it charges for, and then goes unpaid.

By hand: 120 min are charged, 8 jobs of 100 take longer, and over all jobs that is 72 s each. The late ones are then 15
min late, and two people at 40.00 an hour cost the firm 1.60 a job.
"""

from decimal import Decimal

from splitpin.pricing.chargeable import MINUTES_PER_HOUR
from splitpin.pricing.lines import Tariff
from splitpin.records.quote import Risk, SoldTime
from splitpin.timing import Spread
from splitpin.units import SECONDS_PER_MINUTE, seconds


def risk_of(time: Spread, sold: SoldTime, tariff: Tariff) -> Risk:
    """The chance and size of an overrun; counted from the time charged, for only beyond that is work unpaid."""
    charged_s = sold.charged_min * SECONDS_PER_MINUTE
    chance, over = time.chance_over(charged_s), time.expected_over(charged_s)
    over_s = whole_seconds(over)
    unpaid = tariff.charges.labour.hour * over_s * sold.people / (MINUTES_PER_HOUR * SECONDS_PER_MINUTE)
    return Risk(
        chance_percent=whole_percent(chance),
        over_s=over_s,
        over_when_late_s=whole_seconds(over / chance) if chance > 0 else 0,
        cost=tariff.money(unpaid),
    )


def whole_seconds(estimated: float) -> int:
    """Here an estimate in seconds (>= 0) becomes a whole number; half a second is rounded up."""
    return seconds(estimated / SECONDS_PER_MINUTE)


def whole_percent(chance: float) -> int:
    """A chance of 0 to 1 in whole per cent; half a per cent is rounded up."""
    return int(Decimal(str(chance * 100)).to_integral_value(rounding="ROUND_HALF_UP"))
