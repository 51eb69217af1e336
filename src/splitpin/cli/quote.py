"""`splitpin quote`."""

import datetime
from pathlib import Path
from typing import cast

from splitpin.cli.planned import as_notices, leave, planned
from splitpin.cli.saying import answer, say, stop_on_errors, usage
from splitpin.notices import Notice, Place
from splitpin.planning import Planned
from splitpin.reading.folders import firm_file, printed
from splitpin.reading.prices import PRICES, read_prices
from splitpin.records.charges import Charges
from splitpin.records.library import Visit
from splitpin.records.prices import Price
from splitpin.records.quote import Quote
from splitpin.sheets.paper import Paper

NO_CHARGES = "this firm says nothing of what it charges"
HINT = "give it [charges] with `currency` and `rounding`, and [charges.labour], [charges.travel], [charges.parts]"


def run(
    job: Path,
    *,
    at: int | None,
    date: datetime.date | None,
    valid_until: datetime.date | None,
    as_json: bool,
    out: Path | None,
    paper: str,
    language: str,
    store: Path | None,
    seconds: float | None,
) -> None:
    """Print the fixed price of a job as text or JSON, or write its page; a job that cannot be done has none."""
    if date is not None and valid_until is not None and valid_until < date:
        raise usage(f"--valid-until is {valid_until}, before --date, which is {date}")
    if out is not None:
        from splitpin.cli.document import checked

        checked(out, paper=paper, language=language)
    done = planned(job, seconds)
    visit, plan = done.visit, done.plan
    found = quoted(job, done, at=at, date=date, valid_until=valid_until, store=store)
    say(as_notices(found.notices))
    if out is not None:
        _write(found, visit, out, paper, language)
    if as_json:
        answer(found.model_dump_json(indent=2))
    elif out is not None:
        waiting = f" without {found.unpriced} to be confirmed" if found.unpriced else ""
        answer(f"{out}: {found.total} {found.currency}{waiting}")
    else:
        from splitpin.sheets.quote_text import quote_text

        answer(quote_text(found))
    leave(plan)


def quoted(
    job: Path,
    done: Planned,
    *,
    at: int | None,
    date: datetime.date | None,
    valid_until: datetime.date | None,
    store: Path | None,
) -> Quote:
    """The quote of a planned job with the firm's charges and prices; what forbids one is said and ends the command."""
    from splitpin.cli.learning import learnt_pace
    from splitpin.pricing import quote, refusal
    from splitpin.timing import estimate

    visit = done.visit
    wrong = refusal(done.plan, visit.job.job.place)
    if wrong is not None:
        say([wrong])
        stop_on_errors([wrong])
    charges = _charges(visit)
    prices, listed_in = _prices(job, visit)
    return quote(
        done,
        charges,
        prices,
        estimate(done, learnt_pace(job, visit, store)),
        at=at,
        date=date,
        valid_until=valid_until,
        listed_in=listed_in,
    )


def _charges(visit: Visit) -> Charges:
    if visit.firm.charges is not None:
        return visit.firm.charges
    missing = Notice("missing-key", NO_CHARGES, Place(visit.firm.place.path), HINT)
    say([missing])
    stop_on_errors([missing])
    raise AssertionError("a missing key is an error")


def _prices(job: Path, visit: Visit) -> tuple[dict[str, Price], Place]:
    """The prices beside the firm's file, if there are any, and what a missing one is told about.

    What the list holds beyond the catalogue is told by `splitpin check`, not with every quote.
    """
    firm = firm_file(job)
    file = None if firm is None else firm.parent / PRICES
    if file is None or not file.exists():
        return {}, Place(visit.firm.place.path)
    prices, notices = read_prices(file, visit.library, job)
    say(notice for notice in notices if notice.severity != "note")
    stop_on_errors(notices)
    return prices, Place(printed(file, job))


def _write(found: Quote, visit: Visit, out: Path, paper: str, language: str) -> None:
    from splitpin.cli.document import write_document
    from splitpin.sheets.language import Words
    from splitpin.sheets.quote_page import quote_page

    write_document(out, quote_page(found, visit.firm, visit.job, paper=cast(Paper, paper), t=Words(language)))
