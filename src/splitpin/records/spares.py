"""The spares that a sum of money is best kept in, as they are handed on: to the terminal, and as `--json`.

The field names and their order are a contract. Money is text; chances are shares of 1; pieces missing are averages.
"""

from typing import Annotated, Literal

from pydantic import Field

from splitpin.records.base import Row
from splitpin.records.supply import Money, Pieces, Share

Missing = Annotated[float, Field(ge=0)]


class SpareLine(Row):
    """A part with a price: `keep` pieces, in whole packs, for `cost`; 0 where other parts are worth the money more.

    `used` pieces are on record. `runs_short` is the chance that what is kept is too little before the refill, when
    `missing` pieces are missing on average; `missing_without` where none is kept.
    """

    part: str
    title: str
    used: Pieces
    pack: Annotated[int, Field(ge=1)]
    keep: Pieces
    cost: Money
    runs_short: Share
    missing_without: Missing
    missing: Missing


class SpareUnpriced(Row):
    """A part that visits used and that is left out, for want of a price that can be used."""

    part: str
    title: str
    used: Pieces
    why: str


class SpareList(Row):
    """What to keep for `money` until `ahead` visits are done, by what `visits` on record used.

    `proved`: no other choice of whole packs leaves fewer pieces missing; `bounded`: none leaves fewer than `at_least`.
    `little_known`: fewer than ten visits, or than are looked ahead, name parts; the figures are then mostly guesses.
    """

    splitpin: str
    visits: Pieces
    ahead: Annotated[int, Field(ge=1)]
    money: Money
    currency: str | None
    little_known: bool
    status: Literal["proved", "bounded"]
    cost: Money
    missing_without: Missing
    missing: Missing
    at_least: Missing
    lines: tuple[SpareLine, ...] = ()
    unpriced: tuple[SpareUnpriced, ...] = ()
