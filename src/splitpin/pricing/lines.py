"""The lines of a quote: labour, travel, parts and materials, each rounded once."""

import datetime
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from splitpin.notices import Notice, Place
from splitpin.pricing.chargeable import Block, blocks
from splitpin.pricing.selling import selling
from splitpin.records.charges import Charges
from splitpin.records.library import Visit
from splitpin.records.plan import Plan, PlanPart
from splitpin.records.prices import Price
from splitpin.records.quote import LineKind, QuoteLine
from splitpin.units.currencies import CURRENCIES
from splitpin.units.money import rounded

PRICE_LIST = "prices.csv"


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


def travel_lines(visit: Visit, people: int, tariff: Tariff) -> tuple[tuple[QuoteLine, ...], tuple[Notice, ...]]:
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


def part_lines(plan: Plan, tariff: Tariff, *, certain: bool) -> tuple[tuple[QuoteLine, ...], tuple[Notice, ...]]:
    """The parts and seals that are needed, or those that an inspection decides on; consumables as the firm charges."""
    goods = tariff.charges.parts
    rows = [part for part in plan.parts if part.certain is certain]
    if goods.consumables != "each":
        rows = [part for part in rows if part.kind != "consumable"]
    pairs = [_part(part, tariff) for part in rows]
    lines = [line for line, _ in pairs]
    if certain and goods.consumables == "flat" and goods.flat is not None and _uses_up(plan.parts):
        lines.append(QuoteLine(kind="materials", title="Consumables", amount=tariff.money(goods.flat)))
    return tuple(lines), tuple(notice for _, notice in pairs if notice is not None)


def _uses_up(parts: Iterable[PlanPart]) -> bool:
    return any(part.kind == "consumable" for part in parts)


def _part(part: PlanPart, tariff: Tariff) -> tuple[QuoteLine, Notice | None]:
    price = tariff.prices.get(part.part)
    title = part.title if price is None or price.description is None else price.description
    line = QuoteLine(kind=part.kind, title=title, part=part.part, quantity=part.quantity)
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
