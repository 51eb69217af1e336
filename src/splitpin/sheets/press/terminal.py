"""A document of blocks as plain text for a terminal: no colour, nothing that moves the cursor."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from splitpin.sheets.press.blocks import (
    Blanks,
    Block,
    Cell,
    Column,
    Document,
    Facts,
    Items,
    Lines,
    Panel,
    Paragraphs,
    Row,
    Scan,
    Section,
    Share,
    Table,
    Tick,
    Ticked,
    empty,
)
from splitpin.sheets.press.wording import visible

NARROWEST = 60  # columns; below this a table would leave no room for words
_WIDEST = 40  # columns of a cell beside the words; a column with a wider one goes under its rows
_FEWEST = 16  # columns of words in a table, whatever the others take
_INDENT = "  "
_SUMS = ("sum", "total")
_HERE = ("both", "terminal")


def text(document: Document, width: int = 80) -> str:
    """The document in lines of at most `width` columns (60 at least), without a line end after the last."""
    width = max(width, NARROWEST)
    head = f"{document.label} {document.reference}: {document.title}" if document.label else document.title
    parts = [wrapped(head, width)]
    parts += [list(_set(block, width, "")) for block in document.blocks]
    return visible("\n\n".join("\n".join(part) for part in parts if part))


def wrapped(text: str, width: int, indent: str = "", hanging: str | None = None) -> list[str]:
    """The text in lines; at least one, even where the text is blank."""
    after = indent + _INDENT if hanging is None else hanging
    lines = wrap(text, width, initial_indent=indent, subsequent_indent=after, break_on_hyphens=False)
    return lines or [indent.rstrip()]


def _set(block: Block, width: int, indent: str) -> Iterator[str]:
    """The lines of a block; none where it tells nothing, or nothing that belongs on a terminal."""
    if empty(block):
        return
    match block:
        case Blanks() | Panel():
            return
        case Section(on=on) if on not in _HERE:
            return
        case Section(heading="", blocks=blocks):
            parts = ["\n".join(_set(one, width, indent)) for one in blocks]
            yield from "\n\n".join(part for part in parts if part).splitlines()
        case Section(heading=heading, blocks=blocks):
            lines = [line for one in blocks for line in _set(one, width, _INDENT)]
            if lines:
                yield from (*wrapped(heading.upper(), width), *lines)
        case Facts(facts=facts):
            for fact in facts:
                yield from wrapped(f"{fact.label}: {', '.join(fact.text.splitlines())}", width, indent)
        case Items(items=items):
            for item in items:
                words = f"{item.quantity} {item.title}".strip() + (f", {item.remark}" if item.remark else "")
                yield from wrapped(words, width, indent)
        case Lines(lines=said):
            for line in said:
                yield from wrapped(line, width, indent)
        case Paragraphs(lines=said):
            for line in said:
                yield from wrapped(line, width, indent, indent)
        case Table():
            yield from _table(block, width, indent)


def words_of(cell: Cell) -> str:
    """A cell as words in one line."""
    match cell:
        case Tick():
            return ""
        case Ticked(text=said, after=after):
            return f"{said} ({after})" if after else said
        case Scan(text=said) | Share(text=said):
            return said
    return ", ".join(cell.splitlines())


def _table(table: Table, width: int, indent: str) -> Iterator[str]:
    """Columns as wide as their widest cell, and the words in what is left of the line."""
    here = [(at, one) for at, one in enumerate(table.columns) if one.on in _HERE]
    widest = {at: max(len(words_of(row.cells[at])) for row in table.rows) for at, _ in here}
    shown = [(at, one) for at, one in here if one.wraps or (not one.below and 0 < widest[at] <= _WIDEST)]
    below = [(at, one) for at, one in here if (at, one) not in shown]
    words = next(at for at, one in shown if one.wraps)
    heads = any(one.head for _, one in shown if not one.wraps)
    widths = {at: max(widest[at], len(one.head) if heads else 0) for at, one in shown if not one.wraps}
    room = max(width - len(indent) - sum(widths.values()) - 2 * (len(shown) - 1), _FEWEST)

    def line(cells: dict[int, str]) -> Iterator[str]:
        for turn, said in enumerate(wrapped(cells[words], room)):
            parts = []
            for at, one in shown:
                part = said if one.wraps else "" if turn else cells[at]
                parts.append(f"{part:>{widths[at]}}" if one.right else f"{part:<{widths.get(at, room)}}")
            yield (indent + "  ".join(parts)).rstrip()

    if heads:
        yield from line({at: one.head for at, one in shown})
    left = len(indent) + sum(widths[at] + 2 for at, _ in shown[: [at for at, _ in shown].index(words)])
    deeper = " " * (left + 2)
    summed = False
    for row in table.rows:
        if row.kind in _SUMS and not summed:
            last = widths[shown[-1][0]]
            yield " " * (width - last) + "-" * last
        summed = row.kind in _SUMS
        for said in row.before:
            yield from wrapped(said, width, " " * left)
        cells = {at: words_of(row.cells[at]) for at, _ in shown}
        beside = f"{cells[words]} ({row.aside})" if row.aside else cells[words]
        fits = len(beside) <= room
        yield from line(cells | {words: beside} if fits else cells)
        for said in (*(() if fits or not row.aside else (row.aside,)), *row.under):
            yield from wrapped(said, width, deeper)
        yield from _below(row, below, width, deeper)


def _below(row: Row, below: list[tuple[int, Column]], width: int, indent: str) -> Iterator[str]:
    told = [
        f"{column.head}: {said}" if column.head else said for at, column in below if (said := words_of(row.cells[at]))
    ]
    together = "; ".join(told)
    for said in [together] if together and len(indent + together) <= width else told:
        yield from wrapped(said, width, indent)
