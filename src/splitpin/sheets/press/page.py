"""A document of blocks as a page, or as a part of one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from splitpin.sheets.press.blocks import Block, Cell, Document, Scan, Section, Share, Table, Tick, Ticked, empty
from splitpin.sheets.press.language import Words
from splitpin.sheets.press.paper import Paper, Part, document, environment
from splitpin.sheets.press.qr import qr_svg
from splitpin.units import number

if TYPE_CHECKING:
    from markupsafe import Markup


def page(told: Document, *, paper: Paper, t: Words) -> str:
    """The document as one HTML text that loads nothing from anywhere; same input, same text.

    Raises ValueError for a paper size that is neither A4 nor Letter.
    """
    return document([part(told, t)], paper=paper, foot=told.reference, t=t)


def part(told: Document, t: Words) -> Part:
    """The document as part of a page."""
    macros = environment().get_template("press/blocks.html.j2").make_module({"t": t})
    blocks = [_set(block, macros, 2) for block in told.blocks]
    title = f"{told.reference} – {told.title}"
    return Part("press/block-document.html.j2", title, {"told": told, "blocks": blocks}, "press/blocks.css")


def _set(block: Block, macros: Any, level: int) -> Markup:
    """The block in HTML, by the macro that is called like its class; nothing where it tells nothing."""
    from markupsafe import Markup

    nothing = Markup("")
    if empty(block) or (isinstance(block, Section) and block.on not in ("both", "page")):
        return nothing
    found: Markup
    match block:
        case Section(blocks=blocks):
            within = level + bool(block.heading)
            found = macros.section(block, level, nothing.join(_set(one, macros, within) for one in blocks))
        case Table():
            at = [n for n, column in enumerate(block.columns) if column.on in ("both", "page")]
            heads = [block.columns[n] for n in at]
            rows = [(row, [(block.columns[n], _cell(row.cells[n], macros)) for n in at]) for row in block.rows]
            found = macros.table(block, heads, any(head.head for head in heads), rows)
        case _:
            found = getattr(macros, type(block).__name__.lower())(block)
    return found


def _cell(cell: Cell, macros: Any) -> Any:
    match cell:
        case Tick():
            return macros.tick()
        case Ticked():
            return macros.ticked(cell)
        case Scan(text=text):
            return macros.scan(text, qr_svg(text))
        case Share():
            return macros.share(cell, number(round(cell.fraction * 100, 1)))
    return cell
