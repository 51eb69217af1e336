"""The load of a round on paper: for whoever picks it, and for whoever drives."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from splitpin.sheets.press import wording
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.paper import Paper, Part, document
from splitpin.sheets.press.qr import qr_svg
from splitpin.sheets.step_sheet.view import Fact, Item
from splitpin.sheets.stock import load_words as words
from splitpin.units import number
from splitpin.units.currencies import CURRENCIES

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.supply import LoadJob, RoundLoad


class Drawn(NamedTuple):
    """A part to draw from one place."""

    location: str
    pieces: int
    title: str
    kind: str
    jobs: str
    part: str
    code: str


class Visited(NamedTuple):
    """One job of the round."""

    n: int
    reference: str
    title: str
    chance: str
    suspects: tuple[str, ...]


class Stowed(NamedTuple):
    """One line of the loading order."""

    n: int
    pieces: int
    title: str
    mass: str
    job: str
    where: str


class Left(NamedTuple):
    """What stays behind, and why."""

    pieces: int
    title: str
    words: str


class LoadSheet(NamedTuple):
    """Everything on the page, in the order in which it is printed."""

    firm: str
    phone: str | None
    reference: str
    title: str
    facts: tuple[Fact, ...]
    summary: tuple[str, ...]
    warnings: tuple[Fact, ...]
    jobs: tuple[Visited, ...]
    drawn: tuple[Drawn, ...]
    stowing: tuple[Stowed, ...]
    limits: tuple[str, ...]
    in_van: tuple[Item, ...]
    tools: tuple[tuple[str, str], ...]
    lists: tuple[tuple[str, tuple[str, ...]], ...]
    left: tuple[Left, ...]
    compared: tuple[tuple[str, str, str, str, str], ...]
    currency: str | None


def load_page(load: RoundLoad, firm: FirmFile, *, paper: Paper = "A4", t: Words = ENGLISH) -> str:
    """The load as one HTML text that loads nothing from anywhere; same input, same text.

    Raises ValueError for a paper size that is neither A4 nor Letter.
    """
    part = Part(
        "stock/load.html.j2", f"{load.round} – {load.title}", {"load": _sheet(load, firm, t)}, "stock/supply.css"
    )
    return document([part], paper=paper, foot=load.round, t=t)


def _sheet(load: RoundLoad, firm: FirmFile, t: Words) -> LoadSheet:
    lists = (
        (t("Less aboard than the jobs together may want"), tuple(words.shared(load, t))),
        (t("Lifts"), tuple(f"{row.job}, {row.title}: {row.words}" for row in load.lifts)),
        (t("Licences"), tuple(words.licences(load, t))),
    )
    return LoadSheet(
        firm=load.firm,
        phone=firm.firm.phone,
        reference=load.round,
        title=load.title,
        facts=(
            *([Fact(label=t("Date"), text=t.date(load.date))] if load.date is not None else []),
            Fact(label=t("Van"), text=load.van),
            Fact(label=t("Jobs"), text=str(len(load.jobs))),
        ),
        summary=tuple(words.summary(load, t)),
        warnings=tuple(
            Fact(label=wording.sentence(one.message), text=wording.sentence(one.hint))
            for one in load.notices
            if one.severity != "note"
        ),
        jobs=tuple(_visited(job, t) for job in load.jobs),
        drawn=tuple(
            Drawn(
                place.location,
                place.pieces,
                line.title,
                words.remark(line, t),
                "\n".join(line.jobs),
                line.part,
                qr_svg(line.part),
            )
            for line, place in words.on_the_way(load)
        ),
        stowing=tuple(
            Stowed(
                row.n,
                row.pieces,
                row.title,
                t("not known") if row.mass_kg is None else f"{t.number(number(row.mass_kg))} kg",
                row.job,
                t(row.where),
            )
            for row in load.stowing
        ),
        limits=(
            t("Mass: {words}.", words=words.limit(load.mass, "kg", t)),
            t("Volume: {words}.", words=words.limit(load.volume, "l", t)),
            t("Check the axles, and lash what can move: this page knows the mass alone."),
        ),
        in_van=tuple(
            Item(title=line.title, quantity=str(line.from_van), remark=words.bins(line))
            for line in load.lines
            if line.from_van
        ),
        tools=tuple(words.tools(load, t)),
        lists=tuple((heading, lines) for heading, lines in lists if lines),
        left=tuple(Left(row.pieces, row.title, words.left(row, t)) for row in load.left),
        compared=tuple(
            words.compared(row, CURRENCIES[load.currency] if load.currency else None, t) for row in load.compared
        ),
        currency=load.currency,
    )


def _visited(job: LoadJob, t: Words) -> Visited:
    suspects = tuple(words.suspect(row, job, t) for row in job.suspects) if words.open_question(job) else ()
    return Visited(job.n, job.reference, job.title, words.percent(job.chance, t), suspects)
