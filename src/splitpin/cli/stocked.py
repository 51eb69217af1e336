"""The firm's prices and store for the commands that need them."""

from pathlib import Path

from splitpin.notices import Notice
from splitpin.reading.folders import firm_file
from splitpin.reading.prices import PRICES, read_prices
from splitpin.reading.stock import read_stock
from splitpin.records.library import Visit
from splitpin.records.prices import Price
from splitpin.records.round import Stock


def prices_of(file: Path, visit: Visit) -> tuple[dict[str, Price], tuple[Notice, ...]]:
    """The prices beside the nearest firm.toml, and what is wrong with them; none where there is no such table."""
    firm = firm_file(file)
    table = None if firm is None else firm.parent / PRICES
    return read_prices(table, visit.library, file) if table is not None and table.is_file() else ({}, ())


def store_of(file: Path, visit: Visit) -> tuple[tuple[Stock, ...], tuple[Notice, ...]]:
    """What lies in the firm's store, and what is wrong with its table; nothing where the firm names none."""
    firm, supply = firm_file(file), visit.firm.supply
    if firm is None or supply is None or supply.store is None:
        return (), ()
    return read_stock(firm.parent / supply.store, visit.library, file)
