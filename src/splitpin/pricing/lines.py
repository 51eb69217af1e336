"""The lines of a quote: labour, travel, parts and materials, each rounded once."""

import datetime
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from splitpin.notices import Notice, Place
from splitpin.pricing.chargeable import Block, blocks
from splitpin.pricing.selling import selling
from splitpin.records.catalogue import Part
from splitpin.records.charges import Charges
from splitpin.records.library import Visit
from splitpin.records.plan import Plan, PlanPart
from splitpin.records.prices import Price
from splitpin.records.quote import LineKind, QuoteLine
from splitpin.timing import PossibleEvent
from splitpin.units.currencies import CURRENCIES
from splitpin.units.money import rounded

PRICE_LIST = "prices.csv"

Priced = tuple[tuple[QuoteLine, ...], tuple[Notice, ...]]

# The kind of line that a part of the catalogue makes.
_KINDS: dict[str, Literal["replace", "seal", "single-use", "consumable"]] = {
    "part": "replace",
    "seal": "seal",
    "fixing": "single-use",
    "consumable": "consumable",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Tariff:
    """What lines are priced with. `on` is the day on which prices must still hold; None takes them as they stand."""

    charges: Charges
    prices: Mapping[str, Price]
    on: datetime.date | None
    listed_in: Place  # the list of prices, or the firm where it has none

    @property
    def smallest(self) -> Decimal:
        """The least amount of the currency."""
        return CURRENCIES[self.charges.currency].smallest

    def money(self, exact: Decimal) -> Decimal:
        """An amount as it stands on a line."""
        return rounded(exact, self.smallest, self.charges.rounding)


def labour_lines(charged_min: int, people: int, tariff: Tariff, *, return_visit: bool) -> tuple[QuoteLine, ...]:
    """One line for each rate, for all people together."""
    charged = list(blocks(charged_min, tariff.charges.labour, return_visit=return_visit))
    titles = ["Labour"] if len(charged) == 1 else ["Labour, first block", "Labour, further time"]
    return tuple(_timed("labour", *pair, people, tariff) for pair in zip(titles, charged, strict=True))


def travel_lines(visit: Visit, people: int, tariff: Tariff) -> Priced:
    """The way to site, where the firm charges for it; a notice where its time is wanted and not known."""
    travel, minutes = tariff.charges.travel, visit.job.job.travel_min
    if travel.charge == "flat" and travel.flat is not None:
        return (QuoteLine(kind="travel", title="Travel to site", amount=tariff.money(travel.flat)),), ()
    if travel.charge == "time" and travel.hour is not None:
        if minutes is None:
            message = "travel is charged by time, and this job has no `travel_min`: it is to be confirmed"
            line = QuoteLine(kind="travel", title="Travel to site", quantity=people, hour=travel.hour)
            return (line,), (
                Notice("travel-missing", message, visit.job.job.place, "give the minutes to site, one way"),
            )
        charged = minutes if travel.cap_min is None else min(minutes, travel.cap_min)
        return (_timed("travel", "Travel to site", Block(charged, travel.hour), people, tariff),), ()
    return (), ()


def _timed(kind: LineKind, title: str, block: Block, people: int, tariff: Tariff) -> QuoteLine:
    return QuoteLine(
        kind=kind,
        title=title,
        quantity=people,
        minutes=block.minutes,
        hour=block.hour,
        amount=tariff.money(block.price * people),
    )


def part_lines(plan: Plan, tariff: Tariff) -> Priced:
    """The parts, seals and consumables that are needed whatever is found; consumables as the firm charges them."""
    goods = tariff.charges.parts
    lines, notices = _priced([part for part in plan.parts if part.certain], tariff)
    if goods.consumables == "flat" and goods.flat is not None and any(part.kind == "consumable" for part in plan.parts):
        lines = (*lines, QuoteLine(kind="materials", title="Consumables", amount=tariff.money(goods.flat)))
    return lines, notices


def contingent_lines(plan: Plan, tariff: Tariff, events: Iterable[PossibleEvent], parts: Mapping[str, Part]) -> Priced:
    """What an inspection decides on, and what would be used up if something went wrong, each part once.

    `parts` is the catalogue's. A part that the job needs anyway is not listed again for an event.
    """
    rows = [(part, "the inspection says so") for part in plan.parts if not part.certain]
    met = {part.part for part in plan.parts}
    for event in events:
        for name in event.parts:
            if name not in met:
                met.add(name)
                row = parts[name]
                kind = _KINDS[row.kind]
                part = PlanPart(part=name, title=row.title, quantity=1, kind=kind, certain=False, pack=row.pack)
                rows.append((part, event.title))
    return _priced([part for part, _ in rows], tariff, {part.part: words for part, words in rows})


def _priced(rows: Iterable[PlanPart], tariff: Tariff, only_if: Mapping[str, str] | None = None) -> Priced:
    each = tariff.charges.parts.consumables == "each"
    pairs = [_part(part, tariff, (only_if or {}).get(part.part)) for part in rows if each or part.kind != "consumable"]
    return tuple(line for line, _ in pairs), tuple(notice for _, notice in pairs if notice is not None)


def _part(part: PlanPart, tariff: Tariff, only_if: str | None) -> tuple[QuoteLine, Notice | None]:
    price = tariff.prices.get(part.part)
    title = part.title if price is None or price.description is None else price.description
    line = QuoteLine(kind=part.kind, title=title, part=part.part, quantity=part.quantity, only_if=only_if)
    wanting = _wanting(price, tariff)
    if price is None or price.cost is None or wanting is not None:
        place = tariff.listed_in if price is None else price.place
        message = f"`{part.part}` ({part.title}): {wanting}; its price is to be confirmed"
        return line, Notice("price-missing", message, place)
    exact = selling(part.quantity, price.cost, price, tariff.charges.parts)
    return line.model_copy(update={"amount": tariff.money(exact)}), None


def _wanting(price: Price | None, tariff: Tariff) -> str | None:
    """Why a price cannot be used; None where it can."""
    if price is None:
        return f"{PRICE_LIST} has no row for it"
    if price.cost is None:
        return "its `cost` is left open"
    if price.currency not in (None, tariff.charges.currency):
        return f"its price is in {price.currency}, the firm charges in {tariff.charges.currency}"
    if tariff.on is not None and price.valid_until is not None and price.valid_until < tariff.on:
        return f"its price holds until {price.valid_until}, and is wanted until {tariff.on}"
    return None
