"""From the parts that visits used up to the spares that a van is best given for a sum of money.

By hand: one visit used one head, which costs 84.20; one visit is looked ahead. Its need has the mean 1.5 and the doubt
1, so that none is wanted with chance (1 / 2)^1.5 = 0.35. For 100.00 one head is kept: 1.5 - 0.65 = 0.85 are missing.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from itertools import islice

import splitpin
from splitpin.records.prices import Price
from splitpin.records.spares import SpareLine, SpareList, SpareUnpriced
from splitpin.supply.demand import PartUse
from splitpin.supply.need import Need
from splitpin.supply.spares import Spare, best_spares

LEAST = 0.01  # what is used with a smaller chance before the refill is no spare: our own rule
FEW = 10  # visits; fewer than these, or than are looked ahead, teach little: our own rule
_FINEST = 1e-9  # chance
_UNIT = Decimal("0.0001")  # the finest amount that a price can name


def spare_list(
    uses: Sequence[PartUse],
    prices: Mapping[str, Price],
    titles: Mapping[str, str],
    money: Decimal,
    *,
    currency: str | None,
    ahead: int,
) -> SpareList:
    """The parts of `uses` with how many of each to keep for `money` (at least 0) until `ahead` visits are done.

    A price in another `currency` than this one cannot be used. Takes the time of `best_spares`.
    """
    priced = [(use, prices[use.part], use.demand.over(ahead)) for use in uses if not _wanting(use, prices, currency)]
    spares = [_spare(price, need) for _, price, need in priced]
    kept = best_spares(spares, int(money / _UNIT))
    rows = zip(priced, spares, kept.counts, strict=True)
    lines = [_line(use, price, need, spare, packs, titles) for (use, price, need), spare, packs in rows]
    return SpareList(
        splitpin=splitpin.__version__,
        visits=uses[0].visits if uses else 0,
        ahead=ahead,
        money=money,
        currency=currency,
        little_known=little_known(uses, ahead),
        status="proved" if kept.proved else "bounded",
        cost=sum((line.cost for line in lines), Decimal(0)),
        missing_without=sum(line.missing_without for line in lines),
        missing=kept.missing,
        at_least=max(0.0, kept.bound),
        lines=tuple(sorted(lines, key=lambda line: line.keep == 0)),
        unpriced=tuple(
            SpareUnpriced(part=use.part, title=_title(use.part, prices.get(use.part), titles), used=use.units, why=why)
            for use in uses
            if (why := _wanting(use, prices, currency)) is not None
        ),
    )


def little_known(uses: Sequence[PartUse], ahead: int) -> bool:
    """Whether the visits on record are too few to say much of `ahead` visits to come."""
    return not uses or uses[0].visits < max(FEW, ahead)


def _wanting(use: PartUse, prices: Mapping[str, Price], currency: str | None) -> str | None:
    """Why a part's price cannot be used; None where it can."""
    price = prices.get(use.part)
    if price is None:
        return "no row"
    if price.cost is None:
        return "`cost` left open"
    if price.currency not in (None, currency):
        return f"a price in {price.currency}"
    return None


def _spare(price: Price, need: Need) -> Spare:
    """The part in whole packs, no more of them than hold the pieces that are used with the least chance."""
    missing = need.missing(_FINEST)
    packs = -(-(len(need.missing(LEAST)) - 1) // price.pack)
    table = tuple(missing[min(n * price.pack, len(missing) - 1)] for n in range(packs + 1))
    return Spare(int((price.cost or 0) / _UNIT), table)


def _line(use: PartUse, price: Price, need: Need, spare: Spare, packs: int, titles: Mapping[str, str]) -> SpareLine:
    keep = packs * price.pack
    return SpareLine(
        part=use.part,
        title=_title(use.part, price, titles),
        used=use.units,
        pack=price.pack,
        keep=keep,
        cost=packs * (price.cost or Decimal(0)),
        runs_short=next(islice(need.short(), keep, None)),
        missing_without=need.mean,
        missing=spare.missing[packs],
    )


def _title(part: str, price: Price | None, titles: Mapping[str, str]) -> str:
    """The firm's own words for it, else those of `titles`."""
    return (price.description if price else None) or titles.get(part, part)
