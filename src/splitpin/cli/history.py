"""`splitpin history`."""

import math
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path
from typing import Annotated

import typer

from splitpin.cli import exits
from splitpin.cli.arguments import AsJson
from splitpin.cli.document import writable, write_whole
from splitpin.cli.office import opened
from splitpin.cli.saying import answer, answer_json, say, stop_on_errors, usage
from splitpin.faults.share import found_causes
from splitpin.history import PastVisit
from splitpin.history.table import NotATable, as_table, of_table
from splitpin.notices import Notice, Place
from splitpin.reading.folders import firm_file, printed
from splitpin.reading.library import read_documents, read_library
from splitpin.reading.prices import PRICES, read_prices
from splitpin.records.firm import FirmFile
from splitpin.records.library import Library
from splitpin.records.prices import Price
from splitpin.sheets.stock.history_text import history_text
from splitpin.sheets.stock.spares_text import spares_text
from splitpin.supply.demand import part_uses
from splitpin.supply.keeping import spare_list
from splitpin.timing.learning import Experience, log_ratio
from splitpin.timing.pace import usual_pace
from splitpin.units.money import amount


def run(
    store: Annotated[Path, typer.Argument(metavar="STORE", help="The file that `record` keeps.")],
    export: Annotated[
        Path | None, typer.Option("--export", metavar="FILE.csv", help="Write the visits.", callback=writable)
    ] = None,
    take: Annotated[Path | None, typer.Option("--import", metavar="FILE.csv", help="Take visits in.")] = None,
    spares: Annotated[
        str | None, typer.Option("--spares", metavar="SUM", help="Which spares to keep in the van for this much money.")
    ] = None,
    ahead: Annotated[int, typer.Option("--visits", min=1, max=1000, help="Visits to look ahead.")] = 10,
    as_json: AsJson = False,
) -> None:
    """Show the visits on record and what they teach: pace, causes, parts and spares."""
    asked = [("--export", export), ("--import", take), ("--spares", spares)]
    both = [name for name, value in asked if value is not None]
    if len(both) > 1:
        raise usage(f"{both[0]} and {both[1]} are two things; say them one after the other")
    money = None if spares is None else _money(spares)
    if take is not None:
        return _import(store, take)
    with opened(store) as found:
        visits = found.visits()
    if export is not None:
        write_whole(export, as_table(visits).encode("utf-8"))
        return answer(f"{export}: {len(visits)} visits")
    if money is not None:
        return _spares(store, visits, money, ahead=ahead, as_json=as_json)
    experience = Experience(visits, usual_pace(read_library(assemblies=())[0]))
    answer_json(_rows(visits, experience, ahead)) if as_json else answer(history_text(visits, experience, ahead))
    return None


def _import(store: Path, take: Path) -> None:
    try:
        visits = of_table(take.read_text(encoding="utf-8-sig"))
    except FileNotFoundError:
        raise usage(f"--import: there is no file {take}") from None
    except (OSError, UnicodeDecodeError):
        raise usage(f"--import: {take} cannot be read as text") from None
    except NotATable as fault:
        typer.echo(f"splitpin: {take}: {fault}", err=True)
        raise SystemExit(exits.ERRORS) from None
    with opened(store, create=True) as found:
        fresh = found.add_missing(visits)
    answer(f"{store}: {fresh} visits taken in, {len(visits) - fresh} were there already")


def _money(text: str) -> Decimal:
    money = amount(text)
    if money is None or money < 0:
        raise usage(f"--spares is {text}; it must be a sum of money like 250 or 250.00, at least 0")
    return money


def _spares(store: Path, visits: Sequence[PastVisit], money: Decimal, *, ahead: int, as_json: bool) -> None:
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


def _rows(visits: Sequence[PastVisit], experience: Experience, ahead: int) -> dict[str, object]:
    return {
        "visits": [_visit(visit, experience) for visit in visits],
        "paces": _paces(experience),
        "causes": _causes(visits),
        "parts": _parts(visits, ahead),
    }


def _visit(visit: PastVisit, experience: Experience) -> dict[str, object]:
    timed = visit.planned_s > 0 and visit.taken_s > 0
    return {
        "job": visit.job,
        "date": visit.date.isoformat(),
        "assembly": visit.assembly,
        "planned_s": round(visit.planned_s),
        "taken_s": round(visit.taken_s),
        "ratio": round(math.exp(log_ratio(visit)), 3) if timed else None,
        "outlier": (visit.job, visit.date.isoformat()) in experience.outliers(),
    }


def _paces(experience: Experience) -> list[dict[str, object]]:
    return [
        {
            "of": row.what,
            "pace": round(math.exp(row.pace.log_mean), 3),
            "log_sd": round(row.pace.log_sd, 3),
            "visits": row.pace.visits,
        }
        for row in experience.learnt()
    ]


def _causes(visits: Sequence[PastVisit]) -> list[dict[str, object]]:
    return [
        {
            "assembly": row.assembly,
            "symptom": row.symptom,
            "component": row.cause[0],
            "task": row.cause[1],
            "found": row.found,
            "visits": row.visits,
            "share_5": round(row.share.at(0.05), 3),
            "share_95": round(row.share.at(0.95), 3),
        }
        for row in found_causes(visits)
    ]


def _parts(visits: Sequence[PastVisit], ahead: int) -> list[dict[str, object]]:
    return [
        {
            "part": row.part,
            "units": row.units,
            "visits": row.visits,
            "ahead": ahead,
            "enough_95": row.demand.over(ahead).stock(0.95),
        }
        for row in part_uses(visits)
    ]
