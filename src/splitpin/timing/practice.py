"""The same job on many like units: the hands grow quicker, by a fixed share at every doubling.

Two models go under one name and differ much: the average of the first n units falls (T. P. Wright, 1936), or the n-th
unit does (J. R. Crawford, as usually quoted), which is used here. By hand, first unit 100 min at a rate of 0.8: 100 and
80, together 180 min; by averages the first two would take 2 x 80 = 160, so the second 60.
"""

import math

USUAL_RATE = 0.9  # 0.85 to 0.9 for mixed hand and machine work, lecture notes on learning curves; the slower end taken


def unit_time(first: float, rate: float, n: int) -> float:
    """Time of the n-th unit where the time of a unit falls to `rate` (0 < rate <= 1) at every doubling of n (>= 1)."""
    return first * math.pow(n, math.log2(rate))


def total_by_units(first: float, rate: float, units: int) -> float:
    """Time of all units together, each by `unit_time`. Cost grows with their number."""
    return math.fsum(unit_time(first, rate, n) for n in range(1, units + 1))
