"""Which spares to keep in a van for a sum of money, as plain text for 80 columns."""

import textwrap
from decimal import Decimal

from splitpin.reading.prices import PRICES
from splitpin.records.spares import SpareLine, SpareList
from splitpin.units import counted

WIDTH = 80


def spares_text(found: SpareList) -> str:
    """The list as plain text, without a line end after the last."""
    return "\n".join(_lines(found))


def _lines(found: SpareList) -> list[str]:
    visits = f"the {counted(found.ahead, 'visit')} until it is refilled"
    lines = [*_wrapped(f"Spares to keep in the van for {_money(found.money, found)}, for {visits}")]
    if not found.lines and not found.unpriced:
        return [*lines, *_wrapped("No visit on record names a part that it used: there is nothing to reckon from.")]
    if found.little_known:
        visits = f"{counted(found.visits, 'visit')} on record {'names' if found.visits == 1 else 'name'} parts used"
        lines += _wrapped(f"Little is known yet: {visits}. These are guesses, and high ones: judge each before buying.")
    if found.lines:
        lines += ["", "  keep        cost  runs short  missing on average  part", *map(_line, found.lines)]
        total = f"  total {_money(found.cost, found)}; missing {found.missing_without:.2f} pieces without, "
        lines += [f"{total}{found.missing:.2f} with them", "", *_wrapped(_ended(found))]
    if found.unpriced:
        parts = ", ".join(f"{row.part} ({row.why})" for row in found.unpriced)
        lines += ["", *_wrapped(f"Left out for want of a price in {PRICES}: {parts}")]
    return lines


def _line(line: SpareLine) -> str:
    missing = f"{line.missing_without:.2f} to {line.missing:.2f}"
    packs = f", in packs of {line.pack}" if line.pack > 1 else ""
    what = f"{line.part}: {line.title}{packs}"
    return f"  {line.keep or '-':>4}  {line.cost:>10,f}  {line.runs_short:>10.0%}  {missing:>18}  {what}"


def _ended(found: SpareList) -> str:
    if found.status == "proved":
        return "Proved best: nothing else that the money buys leaves fewer pieces missing."
    return f"Best found; {found.at_least:.2f} pieces would be missing at the least, whatever the money buys."


def _money(money: Decimal, found: SpareList) -> str:
    return f"{money:,f} {found.currency or ''}".strip()


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, break_on_hyphens=False, break_long_words=False)
