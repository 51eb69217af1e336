"""A pick list as plain text for a terminal, in picking order."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap
from typing import TYPE_CHECKING

from splitpin.sheets.press import wording
from splitpin.sheets.stock.pick_words import order_words, parted, remarks

if TYPE_CHECKING:
    from splitpin.records.supply import PickLine, PickList

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


def _line(line: PickLine, width: int) -> Iterator[str]:
    places = ", ".join(f"{one.location or 'store'}: {one.pieces}" for one in line.draw)
    bins = ", ".join(f"{one.location or 'van'}: {one.pieces}" for one in line.bins)
    where = "; ".join(text for text in (places, bins) if text)
    head = f"{line.wanted} x {line.title} ({line.part})" + (f"  {where}" if where else "")
    yield from wrap(head, width, initial_indent="  ", subsequent_indent="      ", break_on_hyphens=False)
    for text in (*([order_words(line)] if line.order else []), *remarks(line)):
        yield from wrap(text, width, initial_indent="      ", subsequent_indent="        ", break_on_hyphens=False)
    for reason in line.reasons:
        for rule in reason.because:
            yield from wrap(
                f"{reason.job}: {rule}", width, initial_indent="      ", subsequent_indent="        ",
                break_on_hyphens=False,
            )  # fmt: skip
