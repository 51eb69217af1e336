"""A fixed price for a planned job: the time that so many of a hundred such jobs keep to, and all that goes with it."""

import datetime
from collections.abc import Mapping, Sequence
from decimal import Decimal

from splitpin.notices import NOWHERE, Notice, Place, in_order
from splitpin.planning import Planned
from splitpin.pricing.chargeable import chargeable, whole_minutes
from splitpin.pricing.estimated import Estimated
from splitpin.pricing.lines import Tariff, contingent_lines, labour_lines, part_lines, travel_lines
from splitpin.pricing.risk import risk_of, whole_percent, whole_seconds
from splitpin.pricing.selling import markup_and_margin
from splitpin.pricing.tax import line_taxes, whole_tax
from splitpin.records.charges import Charges
from splitpin.records.plan import Plan, PlanNotice
from splitpin.records.prices import Price
from splitpin.records.quote import Quote, QuoteEvent, QuoteLine, QuoteTax, SoldTime
from splitpin.timing import Spread
from splitpin.units.currencies import CURRENCIES
from splitpin.units.money import rounded

_RARE = 0.01  # what is less likely is not listed, and the firm bears its parts too; our own rule
_NO_CHARGES = "this firm says nothing of what it charges"
_CHARGES = "give it [charges] with `currency` and `rounding`, and [charges.labour], [charges.travel], [charges.parts]"


def quote(
    planned: Planned,
    charges: Charges,
    prices: Mapping[str, Price],
    estimate: Estimated,
    *,
    at: int | None = None,
    date: datetime.date | None = None,
    valid_until: datetime.date | None = None,
    listed_in: Place = NOWHERE,
) -> Quote:
    """The quote of a planned job that `refusal` has nothing against; its notices say which lines have no price.

    What is sold is the time that `charges.labour.clock` counts. `at` (50 to 99) is by default the firm's, `valid_until`
    the firm's `valid_days` after `date`, the day of the quote. Prices must hold on the last of these that is given.
    `listed_in` is where missing prices are looked for. Cost grows with the number of parts.
    """
    plan, visit = planned.plan, planned.visit
    job = visit.job.job
    if valid_until is None and date is not None and charges.valid_days is not None:
        valid_until = date + datetime.timedelta(days=charges.valid_days)
    tariff = Tariff(charges=charges, prices=prices, on=valid_until or date, listed_in=listed_in)
    time = estimate.hands_on if charges.labour.clock == "hands-on" else estimate.elapsed
    sold = _sold(plan, charges, estimate, time, charges.at if at is None else at, return_visit=job.return_visit)
    travel, no_travel = travel_lines(visit, plan.people, tariff)
    parts, no_price = part_lines(plan, tariff)
    labour = labour_lines(sold.charged_min, plan.people, tariff, return_visit=job.return_visit)
    lines = _taxed((*labour, *travel, *parts), tariff)
    events = [event for event in estimate.events if event.chance >= _RARE]
    contingent, no_contingent_price = contingent_lines(plan, tariff, events, visit.library.parts)
    contingent = _taxed(contingent, tariff)
    net = sum(_amounts(lines), Decimal(0) * tariff.smallest)
    markup, margin = markup_and_margin(charges.parts)
    return Quote(
        splitpin=plan.splitpin,
        job=plan.job,
        title=plan.title,
        assembly=plan.assembly,
        assembly_title=plan.assembly_title,
        plan_status=plan.status,
        firm=visit.firm.firm.title,
        currency=charges.currency,
        minor_digits=CURRENCIES[charges.currency].minor_digits,
        rounding=charges.rounding,
        date=date,
        valid_until=valid_until,
        tasks=plan.tasks,
        time=sold,
        risk=risk_of(time, sold, tariff),
        events=tuple(
            QuoteEvent(
                id=event.id,
                title=event.title,
                chance_percent=whole_percent(event.chance),
                each_s=whole_seconds(event.each_s),
            )
            for event in events
        ),
        lines=lines,
        unpriced=len(lines) - len(_amounts(lines)),
        net=net,
        tax=_tax(lines, tariff),
        total=_total(lines, tariff),
        contingent=contingent,
        contingent_unpriced=len(contingent) - len(_amounts(contingent)),
        total_with_contingent=_total((*lines, *contingent), tariff),
        consumables=charges.parts.consumables,
        markup_percent=_hundredths(markup),
        margin_percent=_hundredths(margin),
        included=charges.included,
        excluded=charges.excluded,
        terms=charges.terms,
        notices=_rows(in_order((*no_travel, *no_price, *no_contingent_price))),
    )


def refusal(planned: Planned) -> Notice | None:
    """Why the plan gives no price: it cannot be done as asked, or the firm does not say what it charges."""
    plan, visit = planned.plan, planned.visit
    errors = [notice for notice in plan.notices if notice.severity == "error"]
    if plan.stops:
        reason = "it speaks of an emergency, or its caller was not asked about one: that comes first"
    elif plan.refused:
        reason = f"it would leave out what is asked: {plan.refused[0].task} ({plan.refused[0].reason})"
    elif plan.status == "impossible" or errors:
        reason = errors[0].message if errors else "there is no plan for it"
    elif not plan.steps:
        reason = "there is nothing to do"
    elif visit.firm.charges is None:
        return Notice("missing-key", _NO_CHARGES, Place(visit.firm.place.path), _CHARGES)
    else:
        return None
    return Notice("not-quoted", f"{plan.job} is not quoted: {reason}", visit.job.job.place)


def _sold(plan: Plan, charges: Charges, estimate: Estimated, time: Spread, at: int, *, return_visit: bool) -> SoldTime:
    worked_s = whole_seconds(time.percentile(at))  # whole numbers from here on
    return SoldTime(
        clock=charges.labour.clock,
        at=at,
        likely_s=whole_seconds(time.mean),
        worked_s=worked_s,
        charged_min=chargeable(whole_minutes(worked_s), charges.labour, return_visit=return_visit),
        people=plan.people,
        return_visit=return_visit,
        visits=estimate.visits,
    )


def _hundredths(percent: Decimal) -> Decimal:
    return rounded(percent, Decimal("0.01"), "half-up")


def _amounts(lines: Sequence[QuoteLine]) -> list[Decimal]:
    return [line.amount for line in lines if line.amount is not None]


def _taxed(lines: Sequence[QuoteLine], tariff: Tariff) -> tuple[QuoteLine, ...]:
    """The lines with the tax of each, where it is taken line by line."""
    tax = tariff.charges.tax
    each = None if tax is None else line_taxes(_amounts(lines), tax, tariff.smallest)
    if each is None:
        return tuple(lines)
    taxes = iter(each)
    return tuple(line if line.amount is None else line.model_copy(update={"tax": next(taxes)}) for line in lines)


def _tax(lines: Sequence[QuoteLine], tariff: Tariff) -> QuoteTax | None:
    tax = tariff.charges.tax
    if tax is None:
        return None
    return QuoteTax(
        name=tax.name,
        rate_percent=tax.rate_percent,
        level=tax.level,
        rounding=tax.rounding,
        step=tax.step or tariff.smallest,
        never_nil=tax.never_nil,
        amount=whole_tax(_amounts(lines), tax, tariff.smallest),
    )


def _total(lines: Sequence[QuoteLine], tariff: Tariff) -> Decimal:
    amounts, tax = _amounts(lines), tariff.charges.tax
    return sum(amounts, Decimal(0)) + (whole_tax(amounts, tax, tariff.smallest) if tax else 0)


def _rows(notices: Sequence[Notice]) -> tuple[PlanNotice, ...]:
    return tuple(PlanNotice.of(notice) for notice in notices)
