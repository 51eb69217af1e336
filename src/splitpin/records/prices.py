"""What parts cost the firm, as `prices.csv` says it."""

import datetime
from decimal import Decimal

from splitpin.records.base import Record


class Price(Record):
    """One row: `cost` buys `pack` pieces, before tax; None where the firm has left it open."""

    part: str
    description: str | None = None  # the firm's own words for the part
    cost: Decimal | None = None
    currency: str | None = None  # default: the firm's
    pack: int = 1
    supplier_ref: str | None = None
    valid_until: datetime.date | None = None
    gtin: str | None = None  # the trade's article number of what `cost` buys
