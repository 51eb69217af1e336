"""`splitpin history STORE --spares`."""

import textwrap
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

from splitpin.cli import exits
from splitpin.cli.saying import answer, say, stop_on_errors, usage
from splitpin.history import PastVisit
from splitpin.notices import Notice, Place
from splitpin.reading.folders import firm_file, printed
from splitpin.reading.library import read_documents, read_library
from splitpin.reading.prices import PRICES, read_prices
from splitpin.records.firm import FirmFile
from splitpin.records.library import Library
from splitpin.records.prices import Price
from splitpin.records.spares import SpareLine, SpareList
from splitpin.supply.demand import part_uses
from splitpin.supply.keeping import spare_list
from splitpin.units import counted
from splitpin.units.money import amount

WIDTH = 80


def money_of(text: str) -> Decimal:
    """The sum that `--spares` names."""
    money = amount(text)
    if money is None or money < 0:
        raise usage(f"--spares is {text}; it must be a sum of money like 250 or 250.00, at least 0")
    return money


def keep_for(store: Path, visits: Sequence[PastVisit], money: Decimal, *, ahead: int, as_json: bool) -> None:
    """Print which spares the van is best given for the money, by the parts that visits used, as text or JSON."""
    firm = firm_file(store)
    if firm is None:
        where = "keep the record in the firm's folder, as records/visits.sqlite"
        raise usage(f"there is no firm.toml above {store}, so what its parts cost is not known; {where}")
    library = read_library(assemblies=(), extra=firm.parent)[0]
    prices = _prices(firm, library, store)
    titles = {row.id: row.title for rows in (library.seals, library.parts) for row in rows.values()}
    currency = _currency(firm, prices, store)
    found = spare_list(part_uses(visits), prices, titles, money, currency=currency, ahead=ahead)
    answer(found.model_dump_json(indent=2) if as_json else spares_text(found))
    if found.status == "bounded":
        raise SystemExit(exits.UNPROVED)


def _prices(firm: Path, library: Library, store: Path) -> dict[str, Price]:
    file = firm.parent / PRICES
    if not file.is_file():
        hint = "--spares needs what parts cost: a table with the columns `part` and `cost`"
        missing = Notice("file-missing", "there is no such file", Place(printed(file, store)), hint)
        say([missing])
        stop_on_errors([missing])
    prices, notices = read_prices(file, library, store)
    told = [notice for notice in notices if notice.severity != "note"]
    say(told)
    stop_on_errors(told)
    return prices


def _currency(firm: Path, prices: dict[str, Price], store: Path) -> str | None:
    """What the firm charges in, else what the first price that says so is in."""
    documents, notices = read_documents([firm], like=store)
    say(notices)
    stop_on_errors(notices)
    charges = next((row.record.charges for row in documents if isinstance(row.record, FirmFile)), None)
    return charges.currency if charges else next((row.currency for row in prices.values() if row.currency), None)


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
