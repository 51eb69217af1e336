"""`prices.csv`: what parts cost the firm."""

import datetime
import re
from collections.abc import Collection
from decimal import Decimal
from pathlib import Path

from splitpin.notices import Notice, in_order
from splitpin.notices.nearest import listed, nearest
from splitpin.reading.cells import Cell, Row, table
from splitpin.reading.folders import printed
from splitpin.reading.gtin import gtin
from splitpin.reading.source import read_source
from splitpin.records.library import Library
from splitpin.records.prices import Price
from splitpin.units.currencies import CURRENCIES
from splitpin.units.money import amount

PRICES = "prices.csv"

_NEEDED = ("part", "cost")
_OPTIONAL = ("description", "currency", "pack", "supplier_ref", "valid_until", "gtin")
_LARGEST_PACK = 10_000
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def read_prices(file: Path, library: Library, like: Path | None = None) -> tuple[dict[str, Price], tuple[Notice, ...]]:
    """The prices by part, in the order of the file, and what is wrong with them, sorted.

    `library` holds the parts that there are: a row about another is told in a note. A row whose part is no id is taken
    for a designation and not looked up. Rows with an error are left out. Cost grows with the length of the file.
    """
    source = read_source(file, printed(file, like))
    if isinstance(source, Notice):
        return {}, (source,)
    rows, notices = table(source, _NEEDED, _OPTIONAL)
    prices: dict[str, Price] = {}
    known = {*library.parts, *library.seals, *library.hardware}
    for row in rows:
        price, wrong = _price(row)
        if price is None or wrong:
            notices += wrong
        elif price.part in prices:
            first = prices[price.part].place
            message = f"there are two prices for `{price.part}`"
            notices.append(
                Notice("duplicate-id", message, row.cells["part"].place, f"the first stands in line {first.line}")
            )
        else:
            prices[price.part] = price
            if _ID.fullmatch(price.part) and price.part not in known:
                notices.append(_unknown(row.cells["part"], known))
    return prices, in_order(notices)


def _unknown(cell: Cell, known: Collection[str]) -> Notice:
    near = nearest(cell.text, known)
    hint = f"did you mean `{near}`?" if near else ""
    return Notice("part-unknown", f"the catalogue has no part `{cell.text}`", cell.place, hint)


def _price(row: Row) -> tuple[Price | None, list[Notice]]:
    part = row.cells["part"]
    if not part.text:
        return None, [Notice("missing-key", "this line names no part", part.place)]
    cost, wrong_cost = _cost(row.cells["cost"])
    pack, wrong_pack = _pack(row.cells.get("pack"))
    valid_until, wrong_day = _day(row.cells.get("valid_until"))
    number, wrong_number = gtin(row.cells.get("gtin"))
    price = Price(
        place=part.place,
        part=part.text,
        description=row.text("description") or None,
        cost=cost,
        currency=row.text("currency") or None,
        pack=pack,
        supplier_ref=row.text("supplier_ref") or None,
        valid_until=valid_until,
        gtin=number,
    )
    return price, [*wrong_cost, *_currency(row.cells.get("currency")), *wrong_pack, *wrong_day, *wrong_number]


def _cost(cell: Cell) -> tuple[Decimal | None, list[Notice]]:
    if not cell.text:
        return None, []
    cost = amount(cell.text)
    if cost is None:
        plain = cell.text.replace(",", ".")
        hint = f"write {plain}" if amount(plain) else "no currency sign, no blanks, at most four digits after the point"
        return None, [_wrong("wrong-kind", "cost", cell, "an amount like 12.50", hint)]
    if cost < 0:
        return None, [_wrong("out-of-range", "cost", cell, "at least 0")]
    return cost, []


def _currency(cell: Cell | None) -> list[Notice]:
    if cell is None or not cell.text or cell.text in CURRENCIES:
        return []
    near = nearest(cell.text.upper(), CURRENCIES)
    return [_wrong("not-a-choice", "currency", cell, listed(CURRENCIES), f"did you mean `{near}`?" if near else "")]


def _pack(cell: Cell | None) -> tuple[int, list[Notice]]:
    if cell is None or not cell.text:
        return 1, []
    if not re.fullmatch(r"-?[0-9]{1,9}", cell.text):
        return 1, [_wrong("wrong-kind", "pack", cell, "a whole number")]
    pack = int(cell.text)
    if not 1 <= pack <= _LARGEST_PACK:
        return 1, [_wrong("out-of-range", "pack", cell, f"1 to {_LARGEST_PACK}")]
    return pack, []


def _day(cell: Cell | None) -> tuple[datetime.date | None, list[Notice]]:
    if cell is None or not cell.text:
        return None, []
    if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", cell.text):
        try:
            return datetime.date.fromisoformat(cell.text), []
        except ValueError:
            pass  # told below: there is no such day
    return None, [_wrong("wrong-kind", "valid_until", cell, "a date like 2026-03-31")]


def _wrong(code: str, column: str, cell: Cell, allowed: str, hint: str = "") -> Notice:
    return Notice(code, f"`{column}` is {cell.text}; it must be {allowed}", cell.place, hint)
