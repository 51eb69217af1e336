"""Money in `Decimal`, and the one rounding rule: to a step, in a mode that is named wherever it is used.

By hand: 0.125 to a step of 0.01 is 0.13 half-up, 0.12 half-even and 0.12 down. No amount is ever a binary fraction.
"""

import decimal
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


def rounded(amount: Decimal, step: Decimal, mode: Rounding, *, never_nil: bool = False) -> Decimal:
    """`amount` as a whole number of `step` (> 0), written with the digits of the step.

    Modes act on the size of the amount, so that a refund of 2.5 rounds as a charge of 2.5 does. `never_nil`: an amount
    that is not nought becomes at least one step.
    """
    steps = (amount / step).quantize(Decimal(1), rounding=_MODES[mode])
    if never_nil and amount and not steps:
        steps = Decimal(1).copy_sign(amount)
    return steps * step


def printed(amount: Decimal, currency: Currency) -> str:
    """`1,234.50`: digits in threes, as many after the point as the currency has. The amount is rounded already."""
    return f"{amount:,.{currency.minor_digits}f}"
