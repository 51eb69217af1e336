"""Tables of stock, `*stock.csv`: how many pieces of which part lie where."""

import re
from pathlib import Path

from splitpin.notices import Notice, in_order
from splitpin.notices.nearest import nearest
from splitpin.reading.cells import Cell, Row, table
from splitpin.reading.folders import printed
from splitpin.reading.source import read_source
from splitpin.records.library import Library
from splitpin.records.round import Stock

STOCK = "stock.csv"  # how the name of such a file ends

_NEEDED = ("part", "quantity")
_OPTIONAL = ("location", "note")
_LARGEST = 100_000
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_LOCATION = re.compile(r"[A-Z][A-Z0-9]*(-[0-9]{1,4}){0,3}")


def read_stock(file: Path, library: Library, like: Path | None = None) -> tuple[tuple[Stock, ...], tuple[Notice, ...]]:
    """The rows in the order of the file, and what is wrong with them, sorted. Rows with an error are left out.

    A part may lie in several places, each with a row of its own. A part that `library` does not have is told in a note
    where it is an id; else it is taken for a designation. Cost grows with the length of the file.
    """
    source = read_source(file, printed(file, like))
    if isinstance(source, Notice):
        return (), (source,)
    rows, notices = table(source, _NEEDED, _OPTIONAL)
    found: dict[tuple[str, str], Stock] = {}
    known = {*library.parts, *library.seals, *library.hardware}
    for row in rows:
        stock, wrong = _stock(row)
        notices += wrong
        if stock is None or wrong:
            continue
        first = found.setdefault((stock.part, stock.location), stock)
        if first is not stock:
            where = f" at {stock.location}" if stock.location else ""
            message = f"there are two rows for `{stock.part}`{where}"
            hint = f"the first stands in line {first.place.line}: count the pieces together, or give each its location"
            notices.append(Notice("duplicate-id", message, stock.place, hint))
        elif _ID.fullmatch(stock.part) and stock.part not in known:
            near = nearest(stock.part, known)
            hint = f"did you mean `{near}`?" if near else ""
            notices.append(Notice("part-unknown", f"the catalogue has no part `{stock.part}`", stock.place, hint))
    return tuple(found.values()), in_order(notices)


def _stock(row: Row) -> tuple[Stock | None, list[Notice]]:
    part = row.cells["part"]
    if not part.text:
        return None, [Notice("missing-key", "this line names no part", part.place)]
    quantity, wrong = _quantity(row.cells["quantity"])
    location = row.text("location")
    if location and not _LOCATION.fullmatch(location):
        hint = f"write {location.upper()}" if _LOCATION.fullmatch(location.upper()) else ""
        message = f"`location` is {location}; it must be a zone, then aisle, bay and level, like A-02-05-1"
        wrong.append(Notice("wrong-kind", message, row.cells["location"].place, hint))
    return Stock(place=part.place, part=part.text, quantity=quantity, location=location), wrong


def _quantity(cell: Cell) -> tuple[int, list[Notice]]:
    if not re.fullmatch(r"-?[0-9]{1,9}", cell.text):
        typed = cell.text or "empty"
        message = f"`quantity` is {typed}; it must be a whole number of pieces"
        hint = "pieces that can no longer be used whole are not stock" if re.fullmatch(r"[0-9.,]+", cell.text) else ""
        return 0, [Notice("wrong-kind", message, cell.place, hint)]
    quantity = int(cell.text)
    if not 0 <= quantity <= _LARGEST:
        hint = "nobody has fewer than none: count again" if quantity < 0 else ""
        message = f"`quantity` is {cell.text}; it must be 0 to {_LARGEST}"
        return 0, [Notice("out-of-range", message, cell.place, hint)]
    return quantity, []
