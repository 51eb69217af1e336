"""The times of a visit as plain text for a terminal: how long, how sure, where it goes, what would change it."""

from collections.abc import Iterable, Iterator
from textwrap import wrap

from splitpin.sheets.press import wording
from splitpin.timing.elements import KINDS
from splitpin.timing.report import AdditionRow, CauseRow, EventRow, SavingRow, SpreadRow, TimeReport
from splitpin.units import clock, counted, listed, number

_TIME = 11  # columns of a time at the right: `1 h 05 min` and a blank
_SHOWN = 12  # lines of a list that can be long; all of it is in the JSON
_NEXT_TO_NOTHING = 30  # seconds; below it a cause is not worth a line
_NAMES = {"hands-on": "Hands-on", "waiting": "Waiting", "elapsed": "Elapsed", "person-hours": "Person-hours"}


def times_text(report: TimeReport, width: int = 80) -> str:
    """The report in lines of at most `width` columns, without a line end after the last. Notices are apart."""
    blocks = [
        _head(report, width),
        _table(report.times),
        list(_said(report, width)),
        _section("Where the time goes", _phases(report)),
        _section("What it is made of", _kinds(report)),
        _section("Why it takes that long", _causes(report, width)),
        _section("What may go wrong", (line for row in report.events for line in _event(row, width))),
        _section("What would save most", _savings(report.savings, width)),
        _section("While you are there", _additions(report.while_there, width)),
    ]
    return wording.visible("\n\n".join("\n".join(block) for block in blocks if block))


def _wrapped(text: str, width: int, indent: str = "  ", hanging: str = "    ") -> list[str]:
    return wrap(text, width, initial_indent=indent, subsequent_indent=hanging, break_on_hyphens=False)


def _section(heading: str, lines: Iterable[str]) -> list[str]:
    found = list(lines)
    return [heading.upper(), *found] if found else []


def _head(report: TimeReport, width: int) -> list[str]:
    return [
        *_wrapped(f"{report.job}: {report.title}", width, "", "  "),
        *_wrapped(f"{wording.sentence(report.assembly_title)} ({report.assembly})", width, "", "  "),
    ]


def _table(rows: tuple[SpreadRow, ...]) -> list[str]:
    heads = ["on average", *(f"{p} of 100" for p in rows[0].within)]
    lines = [" " * 14 + "".join(f"{head:>{_TIME + 1}}" for head in heads)]
    for row in rows:
        if row.name != "person-hours" or row.mean_s != next(r for r in rows if r.name == "elapsed").mean_s:
            times = (row.mean_s, *row.within.values())
            lines.append(f"{_NAMES[row.name]:<14}" + "".join(f"{clock(time):>{_TIME + 1}}" for time in times))
    return lines


def _said(report: TimeReport, width: int) -> Iterator[str]:
    booking = report.booking
    yield from _wrapped(
        f"Book {clock(booking.seconds)}: enough in {number(booking.at)} of 100 visits; "
        f"the others run over by {clock(booking.mean_overrun_s)} on average.",
        width,
        "",
        "",
    )
    plan = f"The plan's own means are {clock(report.plan_hands_on_s)} hands-on, {clock(report.plan_elapsed_s)} elapsed"
    yield from _wrapped(f"{plan}; here {listed(list(_added(report)))} counted in.", width, "", "")
    if report.visits:
        rests = f"The pace rests on {counted(report.visits, 'recorded visit')} and on the catalogue."
    else:
        rests = "The times are the catalogue's; no recorded visit says otherwise yet."
    yield from _wrapped(rests, width, "", "")
    if report.units is not None:
        row = report.units
        yield from _wrapped(
            f"On {counted(row.units, 'like unit')}, each doubling at {number(round(100 * row.rate, 1))} % of the time "
            f"of a unit: {clock(row.total_s)} hands-on in all, the last {clock(row.last_s)}; "
            f"{clock(row.without_learning_s)} without practice.",
            width,
            "",
            "",
        )


def _added(report: TimeReport) -> Iterator[str]:
    """What stands between the plan's own means and the estimate."""
    if report.allowance:
        basis = report.allowance_basis.replace("-", " ")
        yield f"an allowance of {number(round(report.allowance * 100, 1))} % of {basis} (none on waits)"
    for row in report.site:
        yield f"{row.title} ({row.origin})"
    yield "what may go wrong is" if not report.allowance and not report.site else "what may go wrong are"


def _phases(report: TimeReport) -> Iterator[str]:
    for row in report.phases:
        yield _amount(row.seconds, wording.PHASES[row.id])
    if report.site_s:
        yield _amount(report.site_s, "The site, once")
    if report.events_s:
        yield _amount(report.events_s, "What may go wrong, on average")
    if waiting := next(row.mean_s for row in report.times if row.name == "waiting"):
        yield _amount(waiting, "Waiting with idle hands")


def _kinds(report: TimeReport) -> Iterator[str]:
    titles = {str(kind): title for kind, title in KINDS.items()}
    for row in report.kinds:
        yield _amount(row.seconds, wording.sentence(titles[row.id]))


def _amount(seconds: int, text: str) -> str:
    return f"{clock(seconds):>{_TIME}}  {text}"


def _beside(seconds: int, text: str, width: int) -> list[str]:
    """A time, and beside it words that may run over several lines."""
    return _wrapped(text, width, f"{clock(seconds):>{_TIME}}  ", " " * (_TIME + 2))


def _causes(report: TimeReport, width: int) -> Iterator[str]:
    small: list[CauseRow] = []
    for row in report.causes:
        if row.hands_on_s + row.idle_s < _NEXT_TO_NOTHING:
            small.append(row)
            continue
        idle = f" ({clock(row.idle_s)} of it waiting)" if row.idle_s >= _NEXT_TO_NOTHING else ""
        text = f"{wording.sentence(row.text)}{idle}; {wording.step_numbers(row.steps)}."
        yield from _beside(row.hands_on_s + row.idle_s, text, width)
    if small:
        yield from _beside(sum(row.hands_on_s + row.idle_s for row in small), "All else.", width)


def _event(row: EventRow, width: int) -> Iterator[str]:
    parts = f"; takes {listed(list(row.parts.values()))}" if row.parts else ""
    chance = f"{100 * row.chance:.0f} %" if row.chance >= 0.01 else "under 1 %"
    text = f"{wording.sentence(row.title)}: {clock(row.each_s)} each time{parts}."
    yield from _wrapped(text, width, f"{chance:>{_TIME}}  ", " " * (_TIME + 2))


def _savings(rows: tuple[SavingRow, ...], width: int) -> Iterator[str]:
    for row in rows:
        least = "" if row.proved else ", at least"
        if row.change == "out-of-the-way":
            text = f"{wording.sentence(row.title)}: in nobody's way{least}."
        else:
            text = f"{wording.sentence(row.title)}: undone and made up in no time{least}."
        yield from _beside(row.saves_s, text, width)
    if rows:
        yield from _wrapped("Each change was planned again: standard time saved on this visit.", width, "  ", "  ")


def _additions(rows: tuple[AdditionRow, ...] | None, width: int) -> Iterator[str]:
    if rows is None:
        return
    for row in rows[:_SHOWN]:
        about = "" if row.proved else "about "
        text = f"{wording.sentence(row.phrase)}: instead of {about}{clock(row.alone_s)} alone."
        sign = "+" if row.adds_s >= 0 else "-"
        amount = f"{sign}{clock(abs(row.adds_s))}"
        yield from _wrapped(text, width, f"{amount:>{_TIME}}  ", " " * (_TIME + 2))
    if len(rows) > _SHOWN:
        yield from _wrapped(f"And {len(rows) - _SHOWN} more, of which --json gives all.", width, "  ", "  ")
    if not rows:
        yield "  The plant offers no other task."
