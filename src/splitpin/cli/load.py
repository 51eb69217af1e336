"""`splitpin load`."""

from pathlib import Path
from typing import Annotated

import typer

from splitpin.cli import exits
from splitpin.cli.arguments import AsJson, Limit, StoreFile
from splitpin.cli.budget import budget
from splitpin.cli.document import InLanguage, MaybeOut, PaperSize, write_document
from splitpin.cli.office import past_visits, prices_of
from splitpin.cli.planned import as_notices
from splitpin.cli.saying import answer, heed, say, stop_on_errors
from splitpin.faults.likelihood import learnt
from splitpin.notices import in_order
from splitpin.reading.round import read_round
from splitpin.records.library import Round
from splitpin.records.supply import RoundLoad
from splitpin.sheets.press.language import Words
from splitpin.sheets.press.page import page
from splitpin.sheets.press.terminal import text
from splitpin.sheets.stock.load import load_document
from splitpin.supply.loading import load_round
from splitpin.units import counted


def run(
    round_file: Annotated[Path, typer.Argument(metavar="ROUND", help="A round file.")],
    as_json: AsJson = False,
    out: MaybeOut = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    store: StoreFile = None,
    seconds: Limit = None,
) -> None:
    """Say what a van carries for a round, and how likely each job is then finished at the first visit."""
    done, notices = read_round(round_file)
    if done is None:
        say(notices)
        stop_on_errors(notices)
        raise AssertionError("a round without errors is read")
    found = _loaded(round_file, done, store, seconds)
    say(in_order((*(notice for notice in notices if notice.severity != "note"), *as_notices(found.notices))))
    t = Words(language)
    told = load_document(found, done.firm, t)
    if out is not None:
        write_document(out, page(told, paper=paper, t=t))
    if as_json:
        answer(found.model_dump_json(indent=2))
    elif out is not None:
        answer(f"{out}: {counted(len(found.jobs), 'job')}, {found.finished:.2f} expected to be finished")
    else:
        answer(text(told))
    if found.status == "bounded" and not found.by_rule:
        raise SystemExit(exits.UNPROVED)


def _loaded(file: Path, done: Round, store: Path | None, seconds: float | None) -> RoundLoad:
    prices, listed = prices_of(file, done.visits[0][1])
    heed(listed)
    past = past_visits(file, store)
    known = {}
    for _, visit in done.visits:
        assembly = visit.assembly.assembly.id
        known[assembly] = learnt(visit.assembly.symptom, past, assembly).by_symptom
    with budget(seconds) as stop:
        return load_round(done, prices, counted=known, stop=stop)
