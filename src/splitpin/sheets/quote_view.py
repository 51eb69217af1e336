"""The quote as finished strings, for paper and for the terminal alike."""

from dataclasses import dataclass
from decimal import Decimal

from splitpin.records.quote import Quote, QuoteLine
from splitpin.sheets import wording
from splitpin.units import clock, counted
from splitpin.units.currencies import CURRENCIES
from splitpin.units.money import Rounding, printed

UNPRICED = "to be confirmed"

_MODES: dict[Rounding, str] = {
    "half-up": "to the nearest, half up",
    "half-even": "to the nearest, half to the even one",
    "half-down": "to the nearest, half down",
    "up": "up",
    "down": "down",
}
_SECONDS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """A line: what it is for, how it is reckoned, what it comes to, and its own tax where tax is taken by line."""

    title: str
    detail: str
    amount: str
    tax: str
    confirmed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """A line below the rule: what is summed, and the sum."""

    title: str
    amount: str
    total: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteView:
    """Everything that is printed of a quote, in the order of the page."""

    reference: str
    title: str
    firm: str
    plant: str
    dates: tuple[str, ...]
    tasks: tuple[str, ...]
    currency: str
    by_line: bool
    lines: tuple[Charge, ...]
    sums: tuple[Sum, ...]
    contingent: tuple[Charge, ...]
    contingent_sum: Sum | None
    meaning: tuple[str, ...]
    included: tuple[str, ...]
    covered: tuple[str, ...]
    excluded: tuple[str, ...]
    terms: tuple[str, ...]
    office: tuple[str, ...]


def quote_view(quote: Quote) -> QuoteView:
    """The words of a quote. `office` is for the firm's own eyes and belongs on no page for the customer."""
    return QuoteView(
        reference=quote.job,
        title=quote.title,
        firm=quote.firm,
        plant=wording.sentence(quote.assembly_title),
        dates=_dates(quote),
        tasks=tuple(wording.sentence(task) for task in quote.tasks),
        currency=quote.currency,
        by_line=quote.tax is not None and quote.tax.level == "line",
        lines=tuple(_charge(quote, line) for line in quote.lines),
        sums=_sums(quote),
        contingent=tuple(_charge(quote, line) for line in quote.contingent),
        contingent_sum=_contingent_sum(quote),
        meaning=_meaning(quote),
        included=_included(quote),
        covered=tuple(wording.sentence(event.title) for event in quote.events),
        excluded=tuple(wording.sentence(line) for line in quote.excluded),
        terms=(*_terms(quote), *(wording.sentence(term) for term in quote.terms)),
        office=_office(quote),
    )


def _money(quote: Quote, line: QuoteLine) -> str:
    return UNPRICED if line.amount is None else printed(line.amount, CURRENCIES[quote.currency])


def _charge(quote: Quote, line: QuoteLine) -> Charge:
    title = f"{line.quantity} × {line.title}" if line.part is not None else line.title
    fine = line.tax is not None and quote.tax is not None and quote.tax.step < CURRENCIES[quote.currency].smallest
    tax = "" if line.tax is None else f"{line.tax:f}" if fine else printed(line.tax, CURRENCIES[quote.currency])
    return Charge(
        title=wording.sentence(title),
        detail=_detail(line),
        amount=_money(quote, line),
        tax=tax,
        confirmed=line.amount is not None,
    )


def _detail(line: QuoteLine) -> str:
    """How the amount comes about: `2 people × 1 h 00 min at 48.00 an hour`, or what it hangs on."""
    if line.only_if is not None:
        return f"only if: {line.only_if}"
    if line.hour is None:
        return ""
    rate = f"at {line.hour} an hour"
    if line.minutes is None:
        return rate
    time = clock(line.minutes * _SECONDS) if line.minutes else "0 min"
    return f"{counted(line.quantity, 'person', 'people')} × {time} {rate}"


def _sums(quote: Quote) -> tuple[Sum, ...]:
    currency = CURRENCIES[quote.currency]
    rows = []
    if quote.tax is not None:
        rows.append(Sum(title="Net", amount=printed(quote.net, currency)))
        rows.append(Sum(title=_tax_words(quote), amount=printed(quote.tax.amount, currency)))
    rows.append(Sum(title=_total_words("Total", quote.unpriced), amount=printed(quote.total, currency), total=True))
    return tuple(rows)


def _contingent_sum(quote: Quote) -> Sum | None:
    if len(quote.contingent) == quote.contingent_unpriced:
        return None
    words = _total_words("Total if all of this is needed", quote.unpriced + quote.contingent_unpriced)
    return Sum(title=words, amount=printed(quote.total_with_contingent, CURRENCIES[quote.currency]))


def _tax_words(quote: Quote) -> str:
    return f"{quote.tax.name} {_plain(quote.tax.rate_percent)} %" if quote.tax is not None else ""


def _plain(percent: Decimal) -> str:
    """A percentage without trailing noughts."""
    return f"{percent.normalize():f}"


def _total_words(words: str, unpriced: int) -> str:
    if not unpriced:
        return words
    lines = "line that is" if unpriced == 1 else "lines that are"
    return f"{words} without {unpriced} {lines} {UNPRICED}"


def _dates(quote: Quote) -> tuple[str, ...]:
    return (
        *([f"Date {wording.day(quote.date)}"] if quote.date else []),
        f"Holds until {wording.day(quote.valid_until)}" if quote.valid_until else "No last day is set for this quote",
    )


def _meaning(quote: Quote) -> tuple[str, ...]:
    """What is fixed, and what the confidence means, in plain words."""
    time = quote.time
    place = "on site" if time.clock == "on-site" else "of work, waits not counted"
    charged = clock(time.charged_min * _SECONDS)
    each = f" for each of {time.people} people" if time.people > 1 else ""
    fixed = f"The price is fixed, but for what is {UNPRICED}." if quote.unpriced else "The price is fixed."
    sentences = [
        f"{fixed} It charges {charged} {place}{each}.",
        f"In about {time.at} of 100 such jobs the work takes no longer than {clock(time.worked_s)}. "
        "Where it takes longer than is charged, or not as long, the price stays the same.",
    ]
    if quote.contingent:
        sentences.append("Only what stands under “Only if needed” can come on top.")
    return tuple(sentences)


def _included(quote: Quote) -> tuple[str, ...]:
    lines = [wording.sentence(line) for line in quote.included]
    if quote.consumables == "included":
        lines.append("What is used up: cloths, grease, sealing and the like")
    return tuple(lines)


def _terms(quote: Quote) -> tuple[str, ...]:
    """How the amounts were rounded and taxed."""
    smallest = f"{CURRENCIES[quote.currency].smallest:f} {quote.currency}"
    rounding = f"Each line is rounded to {smallest}, {_MODES[quote.rounding]}."
    if quote.tax is None:
        return rounding, "No tax is charged."
    tax = _tax_words(quote)
    mode = _MODES[quote.tax.rounding]
    if quote.tax.level == "invoice":
        return rounding, f"{tax} is taken once, on the sum of the lines, and rounded to {smallest}, {mode}."
    nil = ", never to nothing" if quote.tax.never_nil else ""
    whole = "" if quote.tax.step == CURRENCIES[quote.currency].smallest else f"; their sum to {smallest}, likewise"
    step = f"{quote.tax.step:f} {quote.currency}"
    return rounding, f"{tax} is taken line by line, each rounded to {step}, {mode}{nil}{whole}."


def _office(quote: Quote) -> tuple[str, ...]:
    """The risk that the fixed price carries, and how the price was come by."""
    time, risk, currency = quote.time, quote.risk, CURRENCIES[quote.currency]
    basis = f"rests on {counted(time.visits, 'recorded visit')}" if time.visits else "rests on no recorded visit yet"
    likely = f"Likely time {clock(time.likely_s)}; {time.at} of 100 within {clock(time.worked_s)}; charged "
    lines = [
        f"{likely}{clock(time.charged_min * _SECONDS)} ({basis}).",
        f"Longer than charged: {_chance(risk.chance_percent)} of 100 jobs, then by {clock(risk.over_when_late_s)} on "
        f"average; over all jobs {clock(risk.over_s)}, or {printed(risk.cost, currency)} {quote.currency} a job.",
        f"Parts: mark-up {_plain(quote.markup_percent)} % on cost, a margin of "
        f"{_plain(quote.margin_percent)} % of the price.",
    ]
    if quote.plan_status == "bounded":
        lines.append("The order of the work is the best found, not proved best: the job may take less.")
    lines += [
        f"{wording.sentence(event.title)}: {_chance(event.chance_percent)} of 100 jobs, {clock(event.each_s)} each."
        for event in quote.events
    ]
    return tuple(lines)


def _chance(percent: int) -> str:
    return f"about {percent}" if percent else "less than 1"
