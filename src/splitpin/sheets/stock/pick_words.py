"""A pick list in words that text and page share."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.sheets.press.language import ENGLISH, Words

if TYPE_CHECKING:
    from splitpin.records.supply import PickInstead, PickJob, PickLine, PickList

# What the list itself says of a job that adds nothing to it; other reasons are the words of a file.
PROBLEMS = (
    "an emergency, or a caller whom nobody asked about one: nothing is planned",
    "only symptoms are known: splitpin diagnose finds the task, splitpin load says what to have aboard",
    "there is no plan",
)


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


def problem(job: PickJob, t: Words = ENGLISH) -> str:
    """Why a job adds nothing; empty where it does."""
    return t(job.problem) if job.problem in PROBLEMS else job.problem or ""


def remarks(line: PickLine, t: Words = ENGLISH) -> Iterator[str]:
    """What whoever picks a line should know."""
    if not line.certain:
        yield t("Only if the inspection says so")
    for other in line.instead:
        yield _instead(other, t)
    if line.fits:
        yield t("fits {what}", what=line.fits)


def order_words(line: PickLine, t: Words = ENGLISH) -> str:
    """What is to be ordered of a line: pieces, whole packs, and the supplier's number."""
    order = [t("order {n}", n=line.order), *([packs_words(line, t)] if line.pack else []), line.supplier_ref or ""]
    return ", ".join(words for words in order if words)


def packs_words(line: PickLine, t: Words = ENGLISH) -> str:
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
