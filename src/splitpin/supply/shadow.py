"""What a gram and a litre of room are worth: the prices at which the cheapest of the known loads is dearest.

Each known load gives a plane over the two prices: its cost + price of mass * mass over the limit + price of volume *
volume over the limit. Wanted is the highest point of the lowest plane; only a guess is needed, for any prices give a
true bound. By hand: a load of cost 10 and 4 kg over, another of cost 30 and 1 kg under: equal at a price of 4, both 26.

Cost: a few thousand times the number of loads. Source: cutting planes after Kelley (1960), one price inside the other.
"""

from collections.abc import Callable, Sequence

_HALVINGS = 28  # to a millionth of the range
_GOLDEN = 0.6180339887498949  # (root of 5 - 1) / 2

Plane = tuple[float, float, float]  # cost, mass over the limit, volume over the limit


def best_prices(planes: Sequence[Plane], highest: tuple[float, float]) -> tuple[float, float]:
    """Prices of mass and of volume between 0 and `highest` at which the lowest plane is highest, nearly."""
    if not highest[1]:
        return _peak(lambda mass: min(cost + mass * over for cost, over, _ in planes), highest[0]), 0.0

    def volume_at(mass: float) -> float:
        return _peak(lambda volume: _lowest(planes, mass, volume), highest[1])

    if not highest[0]:
        return 0.0, volume_at(0.0)
    mass = _peak(lambda mass: _lowest(planes, mass, volume_at(mass)), highest[0])
    return mass, volume_at(mass)


def _lowest(planes: Sequence[Plane], mass: float, volume: float) -> float:
    return min(cost + mass * over_mass + volume * over_volume for cost, over_mass, over_volume in planes)


def _peak(height: Callable[[float], float], end: float) -> float:
    """Where a concave function on 0 to `end` is highest."""
    low, high = 0.0, end
    left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_left, at_right = height(left), height(right)
    for _ in range(_HALVINGS):
        if at_left >= at_right:
            high, right, at_right = right, left, at_left
            left = high - _GOLDEN * (high - low)
            at_left = height(left)
        else:
            low, left, at_left = left, right, at_right
            right = low + _GOLDEN * (high - low)
            at_right = height(right)
    return left if at_left >= at_right else right
