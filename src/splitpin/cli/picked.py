"""The pick list of planned jobs, with the firm's store and prices and what lies in a van."""

from collections.abc import Sequence
from pathlib import Path

from splitpin.cli.office import prices_of, stock_of
from splitpin.cli.saying import heed, say, stop_on_errors
from splitpin.notices import Notice
from splitpin.planning import Planned
from splitpin.reading.round import read_van
from splitpin.reading.stock import read_stock
from splitpin.records.library import Visit
from splitpin.records.round import Stock
from splitpin.records.supply import PickList
from splitpin.supply.pick import pick_list
from splitpin.supply.store import Stores


def picked(first: Path, found: Sequence[Planned], van: Path | None) -> PickList:
    """The list with store and prices of the firm beside the `first` job; what is wrong in them is said."""
    visit = found[0].visit
    in_store, notices = stock_of(first, visit)
    in_van, more = _in_van(van, visit)
    prices, listed = prices_of(first, visit)
    heed((*notices, *more, *listed))
    return pick_list(found, Stores.of(in_van, in_store), prices)


def _in_van(van: Path | None, visit: Visit) -> tuple[tuple[Stock, ...], tuple[Notice, ...]]:
    if van is None:
        return (), ()
    head, notices = read_van(van)
    if head is None:
        say(notices)
        stop_on_errors(notices)
        raise AssertionError("a van without errors is read")
    if head.van.stock is None:
        return (), notices
    rows, more = read_stock(van.parent / head.van.stock, visit.library, van)
    return rows, (*notices, *more)
