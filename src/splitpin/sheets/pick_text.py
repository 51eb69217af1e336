"""A pick list as plain text for a terminal, in picking order."""

from collections.abc import Iterator
from textwrap import wrap

from splitpin.records.supply import PickLine, PickList
from splitpin.sheets import wording
from splitpin.units import counted

_HEADINGS = ("Draw from the store", "In the van", "To order", "At hand")


def pick_text(picks: PickList, width: int = 80) -> str:
    """The list in lines of at most `width` columns, without a line end after the last."""
    lines = []
    for job in picks.jobs:
        lines += wrap(f"{job.reference}: {job.title}", width, subsequent_indent="  ")
        if job.problem:
            lines += wrap(f"not on this list: {job.problem}", width, initial_indent="  ", subsequent_indent="  ")
    for heading, rows in zip(_HEADINGS, parted(picks), strict=True):
        if rows:
            lines += ["", heading, *(text for row in rows for text in _line(row, width))]
    return wording.visible("\n".join(lines))


def parted(picks: PickList) -> tuple[list[PickLine], list[PickLine], list[PickLine], list[PickLine]]:
    """The lines that are drawn, that lie in the van, that are to be ordered, and that nobody counts. A line may be in
    several.
    """
    return (
        [line for line in picks.lines if line.draw],
        [line for line in picks.lines if line.from_van],
        [line for line in picks.lines if line.order],
        [line for line in picks.lines if not line.draw and not line.from_van and not line.order],
    )


def remarks(line: PickLine) -> Iterator[str]:
    """What whoever picks a line should know."""
    if not line.certain:
        yield "if the inspection says so"
    if line.order:
        packs = f", {counted(line.packs, 'pack')} of {line.pack}" if line.pack else ""
        ref = f", {line.supplier_ref}" if line.supplier_ref else ""
        yield f"order {line.order}{packs}{ref}"
    for other in line.instead:
        where = [f"{n} {place}" for n, place in ((other.in_van, "in the van"), (other.in_store, "in the store")) if n]
        stock = ", ".join(where) or "none in stock"
        what = "superseded by" if other.how == "supersedes" else "or"
        yield f"{what} {other.title} ({other.part}): {stock}"
    if line.fits:
        yield f"fits {line.fits}"


def _line(line: PickLine, width: int) -> Iterator[str]:
    places = ", ".join(f"{one.location or 'store'}: {one.pieces}" for one in line.draw)
    van = f"van: {line.from_van}" if line.from_van else ""
    where = "; ".join(text for text in (places, van) if text)
    head = f"{line.wanted} x {line.title} ({line.part})" + (f"  {where}" if where else "")
    yield from wrap(head, width, initial_indent="  ", subsequent_indent="      ", break_on_hyphens=False)
    for text in remarks(line):
        yield from wrap(text, width, initial_indent="      ", subsequent_indent="        ", break_on_hyphens=False)
    for reason in line.reasons:
        for rule in reason.because:
            yield from wrap(
                f"{reason.job}: {rule}", width, initial_indent="      ", subsequent_indent="        ",
                break_on_hyphens=False,
            )  # fmt: skip
