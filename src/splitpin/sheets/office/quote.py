"""The quote: for the customer on paper, and with what is for the firm alone on the terminal."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from splitpin.sheets.press import wording
from splitpin.sheets.press.blocks import (
    Blanks,
    Column,
    Document,
    Fact,
    Facts,
    Lines,
    Paragraphs,
    Row,
    Section,
    Table,
)
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.units import clock, counted
from splitpin.units.currencies import CURRENCIES
from splitpin.units.money import Rounding, printed

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile
    from splitpin.records.quote import Quote, QuoteLine

UNPRICED = "to be confirmed"
_OURS = ("labour", "travel", "materials")  # kinds of lines that have a fixed title
BY_INSPECTION = "the inspection says so"  # what contingent lines of the plan hang on; other words are the catalogue's

MODES: dict[Rounding, str] = {
    "half-up": "to the nearest, half up",
    "half-even": "to the nearest, half to the even one",
    "half-down": "to the nearest, half down",
    "up": "up",
    "down": "down",
}
_SECONDS = 60


def quote_document(quote: Quote, firm: FirmFile, job: JobFile, t: Words = ENGLISH) -> Document:
    """The quote; what is for the firm's own eyes, the risk that the fixed price carries, is on no page.

    `firm` and `job` are those of the quote; they add the telephone number and the site.
    """
    site = "\n".join(line for line in (job.site.name, job.site.address) if line)
    facts = (
        (t("Plant"), wording.sentence(quote.assembly_title)),
        (t("Site"), site),
        (t("Quote"), "\n".join(_dates(quote, t))),
    )
    blanks = Blanks((t("Name"), t("Signature"), t("Date")))
    needed = Section(
        t("Only if needed"),
        (
            Paragraphs((t("Not in the total. Each is charged only where it turns out to be needed."),)),
            _charges(quote, quote.contingent, _contingent_sum(quote, t), t),
        ),
    )
    return Document(
        label=t("Quote for job"),
        reference=quote.job,
        title=quote.title,
        firm=quote.firm,
        phone=firm.firm.phone or "",
        blocks=(
            Lines(tuple(wording.sentence(task) for task in quote.tasks), "tasks"),
            Facts(tuple(Fact(label=label, text=text) for label, text in facts if text)),
            Section(
                t("Price"),
                (_charges(quote, quote.lines, _sums(quote, t), t), Paragraphs(_meaning(quote, t), "meaning")),
            ),
            *([needed] if quote.contingent else []),
            Section("", (_small_print(quote, t), Section(t("Accepted"), (blanks,), on="page")), "ending"),
            Section("For the office", (Lines(_office(quote)),), on="terminal"),
        ),
    )


def _small_print(quote: Quote, t: Words) -> Section:
    told = (
        (t("Included"), _included(quote, t)),
        (t("Not included"), tuple(wording.sentence(line) for line in quote.excluded)),
        (t("Its time is in the price, should it happen"), tuple(wording.sentence(one.title) for one in quote.events)),
        (t("Terms"), (*_terms(quote, t), *(wording.sentence(term) for term in quote.terms))),
    )
    return Section("", tuple(Section(heading, (Lines(lines),)) for heading, lines in told), "small-print")


def _charges(quote: Quote, lines: Sequence[QuoteLine], sums: tuple[Row, ...], t: Words) -> Table:
    """Lines, each with its own tax where tax is taken by line, and what they come to."""
    by_line = quote.tax is not None and quote.tax.level == "line"
    tax = t("Tax")
    columns = (
        Column(name="what", head=t("What for"), wraps=True),
        Column(name="money", head=f"{tax} {quote.currency}", right=True, on="both" if by_line else "nowhere"),
        Column(name="money", head=quote.currency, right=True),
    )
    return Table(name="charges", columns=columns, rows=(*(_charge(quote, line, t) for line in lines), *sums))


def _money(quote: Quote, amount: Decimal, t: Words) -> str:
    return t.money(printed(amount, CURRENCIES[quote.currency]))


def _charge(quote: Quote, line: QuoteLine, t: Words) -> Row:
    title = t(line.title) if line.kind in _OURS else line.title
    fine = line.tax is not None and quote.tax is not None and quote.tax.step < CURRENCIES[quote.currency].smallest
    tax = "" if line.tax is None else t.number(f"{line.tax:f}") if fine else _money(quote, line.tax, t)
    words = wording.sentence(f"{line.quantity} × {title}" if line.part is not None else title)
    amount = t(UNPRICED) if line.amount is None else _money(quote, line.amount, t)
    return Row(cells=(words, tax, amount), aside=_detail(line, t))


def _detail(line: QuoteLine, t: Words) -> str:
    """How the amount comes about: `2 people × 1 h 00 min at 48.00 an hour`, or what it hangs on."""
    if line.only_if is not None:
        return t("only if: {reason}", reason=t(line.only_if) if line.only_if == BY_INSPECTION else line.only_if)
    if line.hour is None:
        return ""
    rate = t("at {rate} an hour", rate=t.number(f"{line.hour}"))
    if line.minutes is None:
        return rate
    time = clock(line.minutes * _SECONDS) if line.minutes else "0 min"
    return f"{wording.people_words(line.quantity, t)} × {time} {rate}"


def _sums(quote: Quote, t: Words) -> tuple[Row, ...]:
    rows = []
    if quote.tax is not None:
        rows.append(Row(cells=(t("Net"), "", _money(quote, quote.net, t)), kind="sum"))
        rows.append(Row(cells=(_tax_words(quote, t), "", _money(quote, quote.tax.amount, t)), kind="sum"))
    total = _total_words(t("Total"), quote.unpriced, t)
    return (*rows, Row(cells=(total, "", _money(quote, quote.total, t)), kind="total"))


def _contingent_sum(quote: Quote, t: Words) -> tuple[Row, ...]:
    if len(quote.contingent) == quote.contingent_unpriced:
        return ()
    words = _total_words(t("Total if all of this is needed"), quote.unpriced + quote.contingent_unpriced, t)
    return (Row(cells=(words, "", _money(quote, quote.total_with_contingent, t)), kind="total"),)


def _tax_words(quote: Quote, t: Words) -> str:
    return f"{quote.tax.name} {t.number(_plain(quote.tax.rate_percent))} %" if quote.tax is not None else ""


def _plain(percent: Decimal) -> str:
    """A percentage without trailing noughts."""
    return f"{percent.normalize():f}"


def _total_words(total: str, unpriced: int, t: Words) -> str:
    if not unpriced:
        return total
    if unpriced == 1:
        return t("{total} without 1 line that is to be confirmed", total=total)
    return t("{total} without {n} lines that are to be confirmed", total=total, n=unpriced)


def _dates(quote: Quote, t: Words) -> tuple[str, ...]:
    last = t("No last day is set for this quote")
    if quote.valid_until:
        last = t("Holds until {day}", day=t.date(quote.valid_until))
    return (*([t("Date {day}", day=t.date(quote.date))] if quote.date else []), last)


def _meaning(quote: Quote, t: Words) -> tuple[str, ...]:
    """What is fixed, and what the confidence means, in plain words."""
    time = quote.time
    charged = clock(time.charged_min * _SECONDS)
    if time.clock == "on-site":
        charges = t("It charges {time} on site", time=charged)
    else:
        charges = t("It charges {time} of work, waits not counted", time=charged)
    if time.people > 1:
        charges = t("{charges} for each of {n} people", charges=charges, n=time.people)
    fixed = t("The price is fixed, but for what is to be confirmed.") if quote.unpriced else t("The price is fixed.")
    sentences = [
        f"{fixed} {charges}.",
        t("In about {n} of 100 such jobs the work takes no longer than {time}.", n=time.at, time=clock(time.worked_s))
        + " "
        + t("Where it takes longer than is charged, or not as long, the price stays the same."),
    ]
    if quote.contingent:
        sentences.append(t("Only what stands under “Only if needed” can come on top."))
    return tuple(sentences)


def _included(quote: Quote, t: Words) -> tuple[str, ...]:
    lines = [wording.sentence(line) for line in quote.included]
    if quote.consumables == "included":
        lines.append(t("What is used up: cloths, grease, sealing and the like"))
    return tuple(lines)


def _terms(quote: Quote, t: Words) -> tuple[str, ...]:
    """How the amounts were rounded and taxed."""
    smallest = f"{t.number(f'{CURRENCIES[quote.currency].smallest:f}')} {quote.currency}"
    rounding = t("Each line is rounded to {step}, {mode}.", step=smallest, mode=t(MODES[quote.rounding]))
    if quote.tax is None:
        return rounding, t("No tax is charged.")
    tax = _tax_words(quote, t)
    mode = t(MODES[quote.tax.rounding])
    if quote.tax.level == "invoice":
        once = t(
            "{tax} is taken once, on the sum of the lines, and rounded to {step}, {mode}.",
            tax=tax,
            step=smallest,
            mode=mode,
        )
        return rounding, once
    step = f"{t.number(f'{quote.tax.step:f}')} {quote.currency}"
    by_line = t("{tax} is taken line by line, each rounded to {step}, {mode}", tax=tax, step=step, mode=mode)
    nil = t(", never to nothing") if quote.tax.never_nil else ""
    whole = quote.tax.step == CURRENCIES[quote.currency].smallest
    summed = "" if whole else t("; their sum to {step}, likewise", step=smallest)
    return rounding, f"{by_line}{nil}{summed}."


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
