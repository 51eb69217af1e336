"""Tax on the lines of a quote, taken line by line or once on their sum; the two can differ by a few of the least coin.

By hand, at 20 %: three lines of 1.11 bear 0.22 each, 0.66, line by line; their sum of 3.33 bears 0.67 half-up, 0.66
rounded down.
"""

from collections.abc import Sequence
from decimal import Decimal

from splitpin.records.charges import Tax
from splitpin.units.money import rounded


def line_taxes(nets: Sequence[Decimal], tax: Tax, smallest: Decimal) -> tuple[Decimal, ...] | None:
    """The tax of each line, rounded to the step of `tax`; None where it is taken on the sum alone.

    `smallest` is the least amount of the currency, and the step where `tax` gives none.
    """
    return tuple(_on(net, tax, smallest) for net in nets) if tax.level == "line" else None


def whole_tax(nets: Sequence[Decimal], tax: Tax, smallest: Decimal) -> Decimal:
    """The tax that is asked for, in the least amount of the currency: of the lines together, or of their sum.

    A sum is rounded once. Lines that are rounded to a finer step than the currency's are rounded again, together.
    """
    each = line_taxes(nets, tax, smallest)
    exact = sum(nets, Decimal(0)) * tax.rate_percent / 100 if each is None else sum(each, Decimal(0))
    return rounded(exact, smallest, tax.rounding)


def _on(net: Decimal, tax: Tax, smallest: Decimal) -> Decimal:
    return rounded(net * tax.rate_percent / 100, tax.step or smallest, tax.rounding, never_nil=tax.never_nil)
