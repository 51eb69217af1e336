"""The pick list, in picking order, with part numbers to scan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from splitpin.sheets.press import wording
from splitpin.sheets.press.blocks import Blanks, Column, Document, Lines, Paragraphs, Row, Scan, Section, Table, Tick
from splitpin.sheets.press.language import ENGLISH, Words

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.supply import PickInstead, PickJob, PickLine, PickList

# What the list itself says of a job that adds nothing to it; other reasons are the words of a file.
PROBLEMS = (
    "an emergency, or a caller whom nobody asked about one: nothing is planned",
    "only symptoms are known: splitpin diagnose finds the task, splitpin load says what to have aboard",
    "there is no plan",
)


def pick_document(picks: PickList, firm: FirmFile, t: Words = ENGLISH) -> Document:
    """The pick list. A part may stand in several of its tables: what the store lacks of it is to be ordered."""
    at_hand = [line for line in picks.lines if not line.draw and not line.from_van and not line.order]
    drawn = (_drawn(line, one.location or t("store"), one.pieces, t) for line in picks.lines for one in line.draw)
    van = (_drawn(line, one.location or t("van"), one.pieces, t) for line in picks.lines for one in line.bins)
    order = (_ordered(line, t) for line in picks.lines if line.order)
    reasons = tuple(map(_reasons, picks.lines))
    titles = [job.title for job in picks.jobs]
    return Document(
        label=t("Pick list for"),
        reference=t.listed([job.reference for job in picks.jobs]),
        title=titles[0] if len(titles) == 1 else t("{n} jobs", n=len(titles)),
        firm=firm.firm.title,
        phone=firm.firm.phone or "",
        blocks=(
            Lines(tuple(_job(job, t) for job in picks.jobs)),
            Section(t("Draw from the store, in this order"), (_table(drawn, t("picked"), t("Location"), t),)),
            Section(t("In the van already"), (_table(van, t("picked"), t("Location"), t),)),
            Section(t("To order"), (_table(order, t("ordered"), t("Order no."), t),)),
            Section(
                t("To have at hand; no stock of it is kept"),
                (Lines((wording.sentence(", ".join(line.title for line in at_hand)),) if at_hand else ()),),
            ),
            Blanks((t("Picked by"), t("Date"))),
            Section(t("Why each part is on the list"), (Paragraphs(reasons),), "reasons follow"),
        ),
    )


def _job(job: PickJob, t: Words) -> str:
    said = f"{job.reference}: {job.title}"
    missing = t("Not on this list: {problem}", problem=_problem(job, t))
    return f"{said}. {missing}" if job.problem else said


def _reasons(line: PickLine) -> str:
    rules = [f"{one.job}: {rule.removesuffix('.')}" for one in line.reasons for rule in one.because]
    return f"{line.title}: {'; '.join(rules)}"


def _table(rows: Iterable[Row], done: str, place: str, t: Words) -> Table:
    """Lines from one place, with the heads of the columns for the tick and for where to turn."""
    columns = (
        Column(name="tick", head=done, on="page"),
        Column(name="location", head=place),
        Column(name="number", head=t("Pieces"), right=True),
        Column(name="what", head=t("Part"), wraps=True),
        Column(name="for", head=t("For"), below=True),
        Column(name="code", head=t("Number"), below=True),
    )
    return Table(name="picks", columns=columns, rows=tuple(rows))


def _drawn(line: PickLine, location: str, pieces: int, t: Words) -> Row:
    packs = [t("packs of {n}", n=line.pack)] if line.pack and line.draw else []
    short = [_order(line, t)] if line.order else []
    return _row(line, location, pieces, (*packs, *short, *_remarks(line, t)))


def _ordered(line: PickLine, t: Words) -> Row:
    packs = [_packs(line, t)] if line.pack else []
    return _row(line, line.supplier_ref or "", line.order, (*packs, *_remarks(line, t)))


def _row(line: PickLine, place: str, pieces: int, under: tuple[str, ...]) -> Row:
    jobs = "\n".join(f"{reason.job} ({reason.pieces})" for reason in line.reasons)
    return Row(cells=(Tick(), place, str(pieces), line.title, jobs, Scan(line.part)), under=under)


def _problem(job: PickJob, t: Words) -> str:
    """Why a job adds nothing; empty where it does."""
    return t(job.problem) if job.problem in PROBLEMS else job.problem or ""


def _remarks(line: PickLine, t: Words) -> Iterator[str]:
    """What whoever picks a line should know."""
    if not line.certain:
        yield t("Only if the inspection says so")
    for other in line.instead:
        yield _instead(other, t)
    if line.fits:
        yield t("fits {what}", what=line.fits)


def _order(line: PickLine, t: Words) -> str:
    """What is to be ordered of a line: pieces, whole packs, and the supplier's number."""
    order = [t("order {n}", n=line.order), *([_packs(line, t)] if line.pack else []), line.supplier_ref or ""]
    return ", ".join(words for words in order if words)


def _packs(line: PickLine, t: Words) -> str:
    """The packs that are to be ordered of a line that comes in packs."""
    if line.packs == 1:
        return t("1 pack of {size}", size=line.pack)
    return t("{n} packs of {size}", n=line.packs, size=line.pack)


def _instead(other: PickInstead, t: Words) -> str:
    named = f"{other.title} ({other.part})"
    what = t("superseded by {part}", part=named) if other.how == "supersedes" else t("or {part}", part=named)
    stock = [
        *([t("{n} in the van", n=other.in_van)] if other.in_van else []),
        *([t("{n} in the store", n=other.in_store)] if other.in_store else []),
    ]
    return f"{what}: " + ", ".join(stock or [t("none in stock")])
