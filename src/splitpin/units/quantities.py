"""Quantities as the trade writes them, each with its one rounding rule.

Splitpin keeps whole seconds, kilograms, newton-metres and `Decimal` money. Numbers turn into words only here.
"""

from decimal import ROUND_HALF_UP, Decimal

SECONDS_PER_MINUTE = 60


def seconds(minutes: float) -> int:
    """Whole seconds of a time given in minutes (>= 0), half a second rounded up."""
    return int((Decimal(str(minutes)) * SECONDS_PER_MINUTE).quantize(Decimal(1), rounding=ROUND_HALF_UP))


def clock(duration_s: int) -> str:
    """A time of the day's work: `45 s`, `12 min`, `1 h 05 min`; from one minute up to the nearest minute."""
    if duration_s < SECONDS_PER_MINUTE:
        return f"{duration_s} s"
    minutes = (duration_s + SECONDS_PER_MINUTE // 2) // SECONDS_PER_MINUTE
    if minutes < 60:
        return f"{minutes} min"
    return f"{minutes // 60} h {minutes % 60:02d} min"


def number(value: float) -> str:
    """A figure without trailing noughts: `0.004`, `20`, `2.5`."""
    text = format(Decimal(str(value)).normalize(), "f")
    return "0" if text in ("-0", "0") else text


def counted(count: int, one: str, many: str | None = None) -> str:
    """`1 screw`, `4 screws`; the plural is given where adding an s would be wrong."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def listed(words: list[str] | tuple[str, ...], joiner: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {joiner} {words[-1]}"
