"""The pick list on paper, in picking order, with part numbers to scan."""

from typing import NamedTuple

from splitpin.records.firm import FirmFile
from splitpin.records.supply import PickLine, PickList
from splitpin.sheets import wording
from splitpin.sheets.paper import Paper, Part, document
from splitpin.sheets.pick_text import parted, remarks
from splitpin.sheets.qr import qr_svg
from splitpin.units import listed


class Picked(NamedTuple):
    """One line as it is printed."""

    location: str
    quantity: str
    title: str
    part: str
    code: str  # SVG
    remarks: tuple[str, ...]
    jobs: str


class Sheet(NamedTuple):
    """The whole page."""

    firm: str
    phone: str | None
    reference: str
    title: str
    jobs: tuple[tuple[str, str, str], ...]
    parts: tuple[tuple[str, tuple[Picked, ...]], ...]
    hand: tuple[str, ...]
    reasons: tuple[tuple[str, tuple[str, ...]], ...]


def pick_page(picks: PickList, firm: FirmFile, *, paper: Paper = "A4") -> str:
    """The pick list as one HTML text that loads nothing from anywhere; same input, same text.

    Raises ValueError for a paper size that is neither A4 nor Letter.
    """
    drawn, van, order, hand = parted(picks)
    references = listed([job.reference for job in picks.jobs])
    foot = " ".join(job.reference for job in picks.jobs)
    rows = (
        ("Draw from the store, in this order", tuple(row for line in drawn for row in _drawn(line))),
        ("In the van already", tuple(_picked(line, "van", line.from_van) for line in van)),
        ("To order", tuple(_picked(line, "", line.order) for line in order)),
    )
    sheet = Sheet(
        firm=firm.firm.title,
        phone=firm.firm.phone,
        reference=references,
        title="Pick list",
        jobs=tuple((job.reference, job.title, job.problem or "") for job in picks.jobs),
        parts=tuple((heading, lines) for heading, lines in rows if lines),
        reasons=tuple(
            (line.title, tuple(f"{reason.job}: {rule}" for reason in line.reasons for rule in reason.because))
            for line in picks.lines
        ),
        hand=tuple(wording.sentence(line.title).removesuffix(".") for line in hand),
    )
    return document(
        [Part("pick.html.j2", f"{sheet.title} – {references}", {"picks": sheet})], paper=paper, foot=foot
    )


def _drawn(line: PickLine) -> list[Picked]:
    return [_picked(line, place.location, place.pieces) for place in line.draw]


def _picked(line: PickLine, location: str, pieces: int) -> Picked:
    pack = f" of {line.pack} a pack" if line.pack and location and location != "van" else ""
    return Picked(
        location=location,
        quantity=f"{pieces}{pack}",
        title=line.title,
        part=line.part,
        code=qr_svg(line.part),
        remarks=tuple(remarks(line)),
        jobs="\n".join(f"{reason.job} ({reason.pieces})" for reason in line.reasons),
    )
