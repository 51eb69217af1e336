"""`splitpin quote`."""

from typing import Annotated

import typer

from splitpin.cli.arguments import AsJson, JobFile, LastDay, Limit, QuoteDay, StoreFile
from splitpin.cli.document import InLanguage, MaybeOut, PaperSize, write_document
from splitpin.cli.exits import leave
from splitpin.cli.planned import as_notices, planned
from splitpin.cli.quoted import quoted
from splitpin.cli.saying import answer, say, usage
from splitpin.sheets.office.quote import quote_document
from splitpin.sheets.press.language import Words
from splitpin.sheets.press.page import page
from splitpin.sheets.press.terminal import text


def run(
    job: JobFile,
    at: Annotated[
        int | None,
        typer.Option(
            "--at", min=50, max=99, help="Of 100 such jobs, how many keep to the time sold. Default: the firm's."
        ),
    ] = None,
    date: QuoteDay = None,
    valid_until: LastDay = None,
    as_json: AsJson = False,
    out: MaybeOut = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    store: StoreFile = None,
    seconds: Limit = None,
) -> None:
    """Give a job a fixed price, line by line, with the risk that it carries."""
    if date is not None and valid_until is not None and valid_until < date:
        raise usage(f"--valid-until is {valid_until}, before --date, which is {date}")
    done = planned(job, seconds)
    visit = done.visit
    found = quoted(job, done, at=at, date=date, valid_until=valid_until, store=store)
    say(as_notices(found.notices))
    t = Words(language)
    told = quote_document(found, visit.firm, visit.job, t)
    if out is not None:
        write_document(out, page(told, paper=paper, t=t))
    if as_json:
        answer(found.model_dump_json(indent=2))
    elif out is not None:
        waiting = f" without {found.unpriced} to be confirmed" if found.unpriced else ""
        answer(f"{out}: {found.total} {found.currency}{waiting}")
    else:
        answer(text(told))
    leave(done.plan.status)
