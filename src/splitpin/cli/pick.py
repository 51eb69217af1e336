"""`splitpin pick`."""

from pathlib import Path
from typing import Annotated

import typer

from splitpin.cli import exits
from splitpin.cli.arguments import AsJson, Limit, VanFile
from splitpin.cli.document import InLanguage, MaybeOut, PaperSize, writable, write_document, write_whole
from splitpin.cli.picked import picked
from splitpin.cli.planned import planned
from splitpin.cli.saying import answer, usage
from splitpin.sheets.press.language import Words
from splitpin.sheets.press.page import page
from splitpin.sheets.press.terminal import text
from splitpin.sheets.stock.pick_list import pick_document
from splitpin.supply.picked import picked_csv
from splitpin.units import counted


def run(
    jobs: Annotated[list[Path], typer.Argument(metavar="JOB…", help="Job files.")],
    van: VanFile = None,
    table: Annotated[
        Path | None, typer.Option("--csv", metavar="FILE", help="Write it as CSV.", callback=writable)
    ] = None,
    as_json: AsJson = False,
    out: MaybeOut = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    seconds: Limit = None,
) -> None:
    """List what jobs need aboard: from the van, from the store, to order; merged, with reasons."""
    twice = next((job for n, job in enumerate(jobs) if job in jobs[:n]), None)
    if twice is not None:
        raise usage(f"{twice} is named twice")
    found = [planned(job, seconds) for job in jobs]
    picks = picked(jobs[0], found, van)
    if table is not None:
        write_whole(table, picked_csv(picks).encode("utf-8"))
    t = Words(language)
    told = pick_document(picks, found[0].visit.firm, t)
    if out is not None:
        write_document(out, page(told, paper=paper, t=t))
    if as_json:
        answer(picks.model_dump_json(indent=2))
    elif out is None and table is None:
        answer(text(told))
    else:
        written = ", ".join(str(file) for file in (out, table) if file is not None)
        answer(f"{written}: {counted(len(picks.lines), 'line')} for {counted(len(picks.jobs), 'job')}")
    if any(job.problem for job in picks.jobs):
        raise SystemExit(exits.ERRORS)
