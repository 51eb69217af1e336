"""Money in `Decimal`, and the one rounding rule: to a step, in a mode that is named wherever it is used.

By hand: 0.125 to a step of 0.01 is 0.13 half-up, 0.12 half-even and 0.12 down. No amount is ever a binary fraction.
"""

import decimal
import re
from decimal import Decimal
from typing import Literal, get_args

from splitpin.units.currencies import Currency

Rounding = Literal["half-up", "half-even", "half-down", "up", "down"]
ROUNDINGS: tuple[Rounding, ...] = get_args(Rounding)

_MODES: dict[Rounding, str] = {
    "half-up": decimal.ROUND_HALF_UP,
    "half-even": decimal.ROUND_HALF_EVEN,
    "half-down": decimal.ROUND_HALF_DOWN,
    "up": decimal.ROUND_UP,
    "down": decimal.ROUND_DOWN,
}

_AMOUNT = re.compile(r"-?[0-9]{1,9}(\.[0-9]{1,4})?")


def amount(text: str) -> Decimal | None:
    """The amount that a text says: at most nine digits, a point, at most four digits; None where it says none."""
    return Decimal(text) if _AMOUNT.fullmatch(text) else None


def rounded(exact: Decimal, step: Decimal, mode: Rounding, *, never_nil: bool = False) -> Decimal:
    """`exact` as a whole number of `step` (> 0), written with the digits of the step.

    Modes act on the size of the amount, so that a refund of 2.5 rounds as a charge of 2.5 does. `never_nil`: an amount
    that is not nought becomes at least one step.
    """
    steps = (exact / step).quantize(Decimal(1), rounding=_MODES[mode])
    if never_nil and exact and not steps:
        steps = Decimal(1).copy_sign(exact)
    return steps * step


def printed(exact: Decimal, currency: Currency) -> str:
    """`1,234.50`: digits in threes, as many after the point as the currency has. The amount is rounded already."""
    return f"{exact:,.{currency.minor_digits}f}"
