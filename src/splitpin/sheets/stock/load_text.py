"""The load of a round as plain text for a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap
from typing import TYPE_CHECKING

from splitpin.sheets.press import wording
from splitpin.sheets.stock import load_words as words
from splitpin.units.currencies import CURRENCIES

if TYPE_CHECKING:
    from splitpin.records.supply import RoundLoad


def load_text(load: RoundLoad, width: int = 80) -> str:
    """The load in lines of at most `width` columns, without a line end after the last. Notices are apart."""
    date = f", {load.date}" if load.date else ""
    blocks = [[f"{load.round}: {load.title}", f"{load.van}{date}"], list(words.summary(load))]
    blocks.append(["Jobs", *_jobs(load)])
    for heading, lines in (
        (
            "From the store",
            [
                f"{place.location or 'store'}: {place.pieces} x {line.title} ({line.part}), {words.remark(line)}"
                for line, place in words.on_the_way(load)
            ],
        ),
        (
            "In the van already",
            [
                f"{line.from_van} x {line.title} ({line.part})" + (f", {at}" if (at := words.bins(line)) else "")
                for line in load.lines
                if line.from_van
            ],
        ),
        ("Less aboard than the jobs together may want", list(words.shared(load))),
        ("Left behind", [f"{row.pieces} x {row.title}: {words.left(row)}" for row in load.left]),
        ("Tools", [f"{place}: {titles}" for place, titles in words.tools(load)]),
        ("Lifts", [f"{row.job}, {row.title}: {row.words}" for row in load.lifts]),
        ("Licences", list(words.licences(load))),
        ("Into the van, in this order", [f"{row.n}. {row.pieces} x {row.title}: {row.where}" for row in load.stowing]),
    ):
        if lines:
            blocks.append([heading, *(f"  {line}" for line in lines)])
    blocks.append([f"Mass: {words.limit(load.mass, 'kg')}", f"Volume: {words.limit(load.volume, 'l')}"])
    blocks.append(["Compared", *(f"  {line}" for line in _compared(load))])
    lines = [line for block in blocks for text in (*block, "") for line in (_wrapped(text, width) or [""])]
    return wording.visible("\n".join(lines).rstrip("\n"))


def _wrapped(text: str, width: int) -> list[str]:
    indent = text[: len(text) - len(text.lstrip())]
    return wrap(text.strip(), width, initial_indent=indent, subsequent_indent=indent + "  ", break_on_hyphens=False)


def _jobs(load: RoundLoad) -> Iterator[str]:
    for job in load.jobs:
        yield f"  {job.n}. {job.reference} {job.title}: {words.percent(job.chance)}"
        if words.open_question(job):
            for row in job.suspects:
                yield f"     {words.suspect(row, job)}"


def _compared(load: RoundLoad) -> Iterator[str]:
    currency = CURRENCIES[load.currency] if load.currency else None
    for row in load.compared:
        name, finished, every, carrying, cost = words.compared(row, currency)
        money = f"; carrying {carrying}, with return visits {cost} {load.currency}" if load.currency else ""
        yield f"{name}: {finished} jobs finished, all {every}{money}"
