"""`splitpin pick`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, cast

from splitpin.cli import exits
from splitpin.cli.document import checked, write_document, write_whole
from splitpin.cli.planned import planned
from splitpin.cli.saying import answer, say, stop_on_errors, usage
from splitpin.cli.stocked import prices_of, store_of
from splitpin.reading.round import read_van
from splitpin.reading.stock import read_stock
from splitpin.sheets.paper import Paper
from splitpin.supply.pick import pick_list
from splitpin.supply.picked import picked_csv
from splitpin.supply.store import Stores
from splitpin.units import counted

if TYPE_CHECKING:
    from splitpin.notices import Notice
    from splitpin.planning import Planned
    from splitpin.records.library import Visit
    from splitpin.records.round import Stock
    from splitpin.records.supply import PickList


def run(
    jobs: list[Path],
    *,
    van: Path | None,
    table: Path | None,
    as_json: bool,
    out: Path | None,
    paper: str,
    language: str,
    seconds: float | None,
) -> None:
    """Print what the jobs need together as text or JSON; write it as CSV, or as a page in picking order."""
    for file in (out, table):
        if file is not None:
            checked(file, paper=paper, language=language)
    twice = next((job for n, job in enumerate(jobs) if job in jobs[:n]), None)
    if twice is not None:
        raise usage(f"{twice} is named twice")
    found = [planned(job, seconds) for job in jobs]
    visit = found[0].visit
    picks = picked(jobs[0], found, van)
    if table is not None:
        write_whole(table, picked_csv(picks).encode("utf-8"))
    if out is not None:
        from splitpin.sheets.language import Words
        from splitpin.sheets.pick_page import pick_page

        write_document(out, pick_page(picks, visit.firm, paper=cast(Paper, paper), t=Words(language)))
    if as_json:
        answer(picks.model_dump_json(indent=2))
    elif out is None and table is None:
        from splitpin.sheets.pick_text import pick_text

        answer(pick_text(picks))
    else:
        written = ", ".join(str(file) for file in (out, table) if file is not None)
        answer(f"{written}: {counted(len(picks.lines), 'line')} for {counted(len(picks.jobs), 'job')}")
    if any(job.problem for job in picks.jobs):
        raise SystemExit(exits.ERRORS)


def picked(first: Path, found: list[Planned], van: Path | None) -> PickList:
    """The list of planned jobs with store and prices of the firm beside the `first`; what is wrong is said."""
    visit = found[0].visit
    in_store, notices = store_of(first, visit)
    in_van, more = _in_van(van, visit)
    prices, listed = prices_of(first, visit)
    told = [notice for notice in (*notices, *more, *listed) if notice.severity != "note"]
    say(told)
    stop_on_errors(told)
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
