"""Keys that end in a unit, and what a figure is in another unit of the same quantity."""

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction

# Each quantity's units in terms of its smallest one here. SI Brochure, 9th edition; the bar is 100 kPa.
# The pound of 0.45359237 kg and the inch of 25.4 mm: the agreement of 1959.
_QUANTITIES: tuple[dict[str, int | Fraction], ...] = (
    {"g": 1, "kg": 1_000, "t": 1_000_000, "lb": Fraction("453.59237"), "oz": Fraction("453.59237") / 16},
    {"s": 1, "sec": 1, "min": 60, "h": 3_600},
    {"mm": 1, "cm": 10, "m": 1_000, "in": Fraction("25.4")},
    {"pa": 1, "mbar": 100, "kpa": 1_000, "bar": 100_000},
    {"ml": 1, "l": 1_000},
    {"ncm": 1, "nm": 100, "knm": 100_000},
)
_WHOLE_WORDS = {"seconds": "s", "minutes": "min", "hours": "h", "min": "min"}  # keys that are a unit and nothing else


def parted(key: str) -> tuple[str, str] | None:
    """The stem and the unit of a key: `off_s` is ("off", "s"), `seconds` ("", "s"); None for a key without a unit."""
    if key in _WHOLE_WORDS:
        return "", _WHOLE_WORDS[key]
    stem, _, unit = key.rpartition("_")
    return (stem, unit) if stem and any(unit in units for units in _QUANTITIES) else None


def same_in_other_unit(key: str, known: Iterable[str]) -> str | None:
    """The known key for the same thing in another unit, if there is one."""
    parts = parted(key)
    if parts is None:
        return None
    return next((other for other in known if other != key and (parted(other) or ("?",))[0] == parts[0]), None)


def converted(figure: int | float, key: str, other: str) -> str | None:
    """The figure under `key` as it is to be under `other`; None where the quantities differ or it does not come out."""
    parts, other_parts = parted(key), parted(other)
    assert parts is not None
    assert other_parts is not None
    for units in _QUANTITIES:
        if parts[1] in units and other_parts[1] in units:
            value = Fraction(str(figure)) * units[parts[1]] / units[other_parts[1]]
            return _decimal(value)
    return None


def _decimal(value: Fraction) -> str | None:
    written = Decimal(value.numerator) / Decimal(value.denominator)
    if Fraction(written) != value:
        return None
    return format(written.normalize(), "f")
