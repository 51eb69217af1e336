"""The quote of a planned job, with the firm's charges and prices and the pace that its visits teach."""

import datetime
from pathlib import Path

from splitpin.cli.office import past_visits, price_list, prices_of
from splitpin.cli.saying import heed
from splitpin.notices import Place
from splitpin.planning import Planned
from splitpin.pricing import quote, refusal
from splitpin.reading.folders import printed
from splitpin.records.quote import Quote
from splitpin.timing import estimate
from splitpin.timing.learning import learnt_pace


def quoted(
    job: Path,
    found: Planned,
    *,
    at: int | None = None,
    date: datetime.date | None = None,
    valid_until: datetime.date | None = None,
    store: Path | None = None,
) -> Quote:
    """The quote; what forbids one is said and ends the command.

    What the list of prices holds beyond the catalogue is told by `splitpin check`, not with every quote.
    """
    wrong = refusal(found)
    heed([] if wrong is None else [wrong])
    visit = found.visit
    charges = visit.firm.charges
    assert charges is not None  # `refusal` has nothing against it
    prices, notices = prices_of(job, visit)
    heed(notices)
    table = price_list(job)
    return quote(
        found,
        charges,
        prices,
        estimate(found, learnt_pace(visit, past_visits(job, store))),
        at=at,
        date=date,
        valid_until=valid_until,
        listed_in=Place(visit.firm.place.path if table is None else printed(table, job)),
    )
