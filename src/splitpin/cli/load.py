"""`splitpin load`."""

from pathlib import Path
from typing import cast

from splitpin.cli import exits
from splitpin.cli.budget import budget
from splitpin.cli.document import checked, write_document
from splitpin.cli.office import past_visits
from splitpin.cli.planned import as_notices
from splitpin.cli.saying import answer, say, stop_on_errors
from splitpin.cli.stocked import prices_of
from splitpin.faults.likelihood import learnt
from splitpin.hardware.unreadable import unreadable
from splitpin.notices import in_order
from splitpin.reading.round import read_round
from splitpin.records.library import Round
from splitpin.records.supply import RoundLoad
from splitpin.sheets.paper import Paper
from splitpin.supply.loading import load_round
from splitpin.units import counted


def run(
    file: Path,
    *,
    as_json: bool,
    out: Path | None,
    paper: str,
    language: str,
    store: Path | None,
    seconds: float | None,
) -> None:
    """Print what a van carries for a round and what comes of it, as text or JSON, or write its page."""
    if out is not None:
        checked(out, paper=paper, language=language)
    done, notices = read_round(file)
    if done is None:
        say(notices)
        stop_on_errors(notices)
        raise AssertionError("a round without errors is read")
    wrong = [notice for _, visit in done.visits for notice in unreadable(visit.assembly, visit.library)]
    if wrong:
        say(in_order((*notices, *wrong)))
        stop_on_errors(wrong)
    found = _loaded(file, done, store, seconds)
    say(in_order((*(notice for notice in notices if notice.severity != "note"), *as_notices(found.notices))))
    if out is not None:
        from splitpin.sheets.language import Words
        from splitpin.sheets.load_page import load_page

        write_document(out, load_page(found, done.firm, paper=cast(Paper, paper), t=Words(language)))
    if as_json:
        answer(found.model_dump_json(indent=2))
    elif out is not None:
        answer(f"{out}: {counted(len(found.jobs), 'job')}, {found.finished:.2f} expected to be finished")
    else:
        from splitpin.sheets.load_text import load_text

        answer(load_text(found))
    if found.status == "bounded" and not found.by_rule:
        raise SystemExit(exits.UNPROVED)


def _loaded(file: Path, done: Round, store: Path | None, seconds: float | None) -> RoundLoad:
    prices, listed = prices_of(file, done.visits[0][1])
    say(notice for notice in listed if notice.severity != "note")
    stop_on_errors(listed)
    past = past_visits(file, store)
    known = {}
    for _, visit in done.visits:
        assembly = visit.assembly.assembly.id
        known[assembly] = learnt(visit.assembly.symptom, past, assembly).by_symptom
    with budget(seconds) as stop:
        return load_round(done, prices, counted=known, stop=stop)
