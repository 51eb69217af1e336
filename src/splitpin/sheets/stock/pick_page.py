"""The pick list on paper, in picking order, with part numbers to scan."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from splitpin.sheets.press import wording
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.paper import Paper, Part, document
from splitpin.sheets.press.qr import qr_svg
from splitpin.sheets.stock.pick_words import order_words, packs_words, parted, problem, remarks

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.supply import PickLine, PickList


class Picked(NamedTuple):
    """One line as it is printed."""

    location: str
    pieces: int
    title: str
    part: str
    code: str  # SVG
    remarks: tuple[str, ...]
    jobs: str


class Section(NamedTuple):
    """Lines from one place, with the heads of the columns for the tick and for where to turn."""

    heading: str
    done: str
    place: str
    lines: tuple[Picked, ...]


class Sheet(NamedTuple):
    """The whole page."""

    firm: str
    phone: str | None
    reference: str
    title: str
    jobs: tuple[tuple[str, str, str], ...]
    parts: tuple[Section, ...]
    hand: str
    reasons: tuple[tuple[str, tuple[str, ...]], ...]


def pick_page(picks: PickList, firm: FirmFile, *, paper: Paper = "A4", t: Words = ENGLISH) -> str:
    """The pick list as one HTML text that loads nothing from anywhere; same input, same text.

    Raises ValueError for a paper size that is neither A4 nor Letter.
    """
    foot = " ".join(job.reference for job in picks.jobs)
    return document([pick_part(picks, firm, t)], paper=paper, foot=foot, t=t)


def pick_part(picks: PickList, firm: FirmFile, t: Words = ENGLISH) -> Part:
    """The pick list as part of a document."""
    drawn, van, order, hand = parted(picks)
    references = t.listed([job.reference for job in picks.jobs])
    done, place = t("picked"), t("Location")
    drawn_rows = tuple(row for line in drawn for row in _drawn(line, t))
    van_rows = tuple(_picked(line, one.location or t("van"), one.pieces, t) for line in van for one in line.bins)
    order_rows = tuple(_ordered(line, t) for line in order)
    sections = (
        Section(t("Draw from the store, in this order"), done, place, drawn_rows),
        Section(t("In the van already"), done, place, van_rows),
        Section(t("To order"), t("ordered"), t("Order no."), order_rows),
    )
    sheet = Sheet(
        firm=firm.firm.title,
        phone=firm.firm.phone,
        reference=references,
        title=t("Pick list"),
        jobs=tuple((job.reference, job.title, problem(job, t)) for job in picks.jobs),
        parts=tuple(section for section in sections if section.lines),
        reasons=tuple(
            (
                line.title,
                tuple(f"{reason.job}: {rule.removesuffix('.')}" for reason in line.reasons for rule in reason.because),
            )
            for line in picks.lines
        ),
        hand=wording.sentence(", ".join(line.title for line in hand)),
    )
    return Part("stock/pick.html.j2", f"{sheet.title} – {references}", {"picks": sheet}, "stock/supply.css")


def _drawn(line: PickLine, t: Words) -> list[Picked]:
    return [_picked(line, place.location, place.pieces, t) for place in line.draw]


def _picked(line: PickLine, location: str, pieces: int, t: Words) -> Picked:
    packs = [t("packs of {n}", n=line.pack)] if line.pack and line.draw else []
    short = [order_words(line, t)] if line.order else []
    return _row(line, location, pieces, (*packs, *short, *remarks(line, t)))


def _ordered(line: PickLine, t: Words) -> Picked:
    packs = [packs_words(line, t)] if line.pack else []
    return _row(line, line.supplier_ref or "", line.order, (*packs, *remarks(line, t)))


def _row(line: PickLine, place: str, pieces: int, said: tuple[str, ...]) -> Picked:
    jobs = "\n".join(f"{reason.job} ({reason.pieces})" for reason in line.reasons)
    return Picked(place, pieces, line.title, line.part, qr_svg(line.part), said, jobs)
