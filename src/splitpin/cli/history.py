"""`splitpin history`."""

import math
from pathlib import Path

import typer

from splitpin.cli import exits
from splitpin.cli.document import checked, write_whole
from splitpin.cli.office import opened
from splitpin.cli.saying import answer, answer_json, usage
from splitpin.cli.spares import keep_for, money_of
from splitpin.faults.share import FoundCause, found_causes
from splitpin.history import PastVisit
from splitpin.reading.library import read_library
from splitpin.supply.demand import PartUse, part_uses
from splitpin.supply.keeping import little_known
from splitpin.timing.learning import Experience, Learnt, log_ratio
from splitpin.timing.pace import usual_pace
from splitpin.units import clock, counted


def run(store: Path, *, export: Path | None, take: Path | None, spares: str | None, ahead: int, as_json: bool) -> None:
    """Show what the visits on record teach, for `ahead` visits to come; or the spares to keep for a sum of money.

    Or write the visits to, or take them from, a table.
    """
    asked = [("--export", export), ("--import", take), ("--spares", spares)]
    both = [name for name, value in asked if value is not None]
    if len(both) > 1:
        raise usage(f"{both[0]} and {both[1]} are two things; say them one after the other")
    money = None if spares is None else money_of(spares)
    if take is not None:
        return _import(store, take)
    with opened(store) as found:
        visits = found.visits()
    if export is not None:
        from splitpin.history.table import as_table

        checked(export, option="--export")
        write_whole(export, as_table(visits).encode("utf-8"))
        return answer(f"{export}: {len(visits)} visits")
    if money is not None:
        return keep_for(store, visits, money, ahead=ahead, as_json=as_json)
    experience = Experience(visits, usual_pace(read_library(assemblies=())[0]))
    if as_json:
        return answer_json(
            {
                "visits": [_row(visit, experience) for visit in visits],
                "paces": _paces(experience),
                "causes": _causes(visits),
                "parts": _parts(visits, ahead),
            }
        )
    return answer("\n".join(_text(visits, experience, ahead)))


def _import(store: Path, take: Path) -> None:
    from splitpin.history.table import NotATable, of_table

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


def _row(visit: PastVisit, experience: Experience) -> dict[str, object]:
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


def _text(visits: tuple[PastVisit, ...], experience: Experience, ahead: int) -> list[str]:
    lines = [f"{'job':<16} {'day':<10} {'planned':>10} {'taken':>10} {'pace':>6}  assembly"]
    for visit in visits:
        row = _row(visit, experience)
        pace = f"{row['ratio']:.2f}" if row["ratio"] is not None else "-"
        far = "  lies far out" if row["outlier"] else ""
        lines.append(
            f"{visit.job[:16]:<16} {visit.date} {clock(round(visit.planned_s)):>10} {clock(round(visit.taken_s)):>10} "
            f"{pace:>6}  {visit.assembly}{far}"
        )
    causes, uses = found_causes(visits), part_uses(visits)
    if not visits:
        return ["no visits on record yet"]
    return [
        *lines,
        "",
        "What they teach: hands-on time against planned (half of cases within these bounds)",
        *map(_pace, experience.learnt()),
        *(["", "Causes found, of visits with the symptom (9 of 10 times the share is within)"] if causes else []),
        *(_cause(row, ahead) for row in causes),
        *(["", f"Parts used, and how many are enough for {ahead} such visits in 95 of 100 cases"] if uses else []),
        *(_use(row, ahead) for row in uses),
        *(["  Little is known yet: these are guesses, and high ones."] if uses and little_known(uses, ahead) else []),
    ]


def _causes(visits: tuple[PastVisit, ...]) -> list[dict[str, object]]:
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


def _cause(row: FoundCause, ahead: int) -> str:
    what = f"{row.assembly}, {row.symptom}: {row.cause[1]} {row.cause[0]}"
    low, high = (100 * row.share.at(chance) for chance in (0.05, 0.95))
    again = 1 - row.share.next(0, ahead)
    of_all = f"{row.found} of {row.visits} ({low:.0f} to {high:.0f} %)"
    return f"  {what}: {of_all}; at least once in the next {ahead}: {again:.0%}"


def _parts(visits: tuple[PastVisit, ...], ahead: int) -> list[dict[str, object]]:
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


def _use(row: PartUse, ahead: int) -> str:
    of_all = f"{row.units} in {counted(row.visits, 'visit')}"
    return f"  {row.part:<44} {of_all}; carry {row.demand.over(ahead).stock(0.95)}"


def _pace(row: Learnt) -> str:
    low, middle, high = (math.exp(row.pace.log_mean + z * row.pace.log_sd) for z in (-0.6745, 0, 0.6745))
    visits = counted(row.pace.visits, "visit")
    return f"  {row.what:<44} x {middle:.2f} ({low:.2f} to {high:.2f}; {visits})"
