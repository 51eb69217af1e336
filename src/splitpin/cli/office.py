"""What the office keeps beside a job: prices, the store's stock, the record of visits."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import typer

from splitpin.cli import exits
from splitpin.cli.saying import usage
from splitpin.history import PastVisit, Store, StoreError, store
from splitpin.notices import Notice
from splitpin.reading.folders import firm_file
from splitpin.reading.prices import PRICES, read_prices
from splitpin.reading.stock import read_stock
from splitpin.records.library import Visit
from splitpin.records.prices import Price
from splitpin.records.round import Stock

_STORE = Path("records") / "visits.sqlite"


def prices_of(file: Path, visit: Visit) -> tuple[dict[str, Price], tuple[Notice, ...]]:
    """The prices beside the nearest firm.toml, and what is wrong with them; none where there is no such table."""
    table = price_list(file)
    return ({}, ()) if table is None else read_prices(table, visit.library, file)


def price_list(file: Path) -> Path | None:
    """The table of prices beside the nearest firm.toml, where there is one."""
    firm = firm_file(file)
    table = None if firm is None else firm.parent / PRICES
    return table if table is not None and table.is_file() else None


def stock_of(file: Path, visit: Visit) -> tuple[tuple[Stock, ...], tuple[Notice, ...]]:
    """What lies in the firm's store, and what is wrong with its table; nothing where the firm names none."""
    firm, supply = firm_file(file), visit.firm.supply
    if firm is None or supply is None or supply.store is None:
        return (), ()
    return read_stock(firm.parent / supply.store, visit.library, file)


def store_of(job: Path, named: Path | None) -> Path:
    """Where the visits of this job's firm are kept: as named, else `records/visits.sqlite` beside firm.toml."""
    if named is not None:
        return named
    firm = firm_file(job)
    if firm is None:
        raise usage("there is no firm.toml above this job, so name the store: --store FILE")
    return firm.parent / _STORE


@contextmanager
def opened(path: Path, *, create: bool = False) -> Iterator[Store]:
    """The record of visits, its faults said as a message and exit code 1."""
    if create:
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError:
            raise usage(f"the folder {path.parent} cannot be made for the record of visits") from None
    try:
        with store(path, create=create) as found:
            yield found
    except StoreError as fault:
        typer.echo(f"splitpin: {fault}", err=True)
        raise SystemExit(exits.ERRORS) from None


def past_visits(job: Path, named: Path | None) -> tuple[PastVisit, ...]:
    """The visits on record; none where there is no store yet and none was named."""
    path = store_of(job, named)
    if named is None and not path.exists():
        return ()
    with opened(path) as found:
        return found.visits()
