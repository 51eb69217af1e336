"""What documents of the office and of stock are made of: built once, set as a page and as text for a terminal.

A block says what is told and never how it looks. `name` is the class under which a style sheet finds it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

Where = Literal["both", "page", "terminal", "nowhere"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A label and what it says."""

    label: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One line of a list of things to have."""

    quantity: str = ""
    title: str
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Facts:
    """Facts beside each other on the page, a line each on the terminal."""

    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class Items:
    """Things to have, each with a box to tick on the page."""

    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Lines:
    """A list of lines, marked as such on the page."""

    lines: tuple[str, ...]
    name: str = ""


@dataclass(frozen=True, slots=True)
class Paragraphs:
    """Sentences, each a paragraph of its own."""

    lines: tuple[str, ...]
    name: str = ""


@dataclass(frozen=True, slots=True)
class Panel:
    """What must not be missed, in a frame on the page; a terminal has it as notices already."""

    heading: str
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class Blanks:
    """Lines to be filled in by hand; a terminal has none."""

    labels: tuple[str, ...]
    remarks: str = ""  # the label of a field of several lines above them


@dataclass(frozen=True, slots=True)
class Tick:
    """A cell to be ticked by hand."""


@dataclass(frozen=True, slots=True)
class Scan:
    """A cell with a code that can be scanned, and the same as text."""

    text: str


@dataclass(frozen=True, slots=True)
class Share:
    """A cell with a part of one, drawn as a bar with its words; `told` is what the bar is to who cannot see it."""

    fraction: float
    text: str
    told: str


@dataclass(frozen=True, slots=True)
class Ticked:
    """A cell that begins with a box to be ticked; `after` stands in bold under the words."""

    text: str
    after: str = ""


Cell: TypeAlias = str | Tick | Scan | Share | Ticked


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column. On the terminal the one that `wraps` takes the room that is left, and one `below` has lines of its own
    under the row, after its head.
    """

    name: str
    head: str = ""
    right: bool = False
    wraps: bool = False
    below: bool = False
    on: Where = "both"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row, a cell for each column. `before` are lines above it, `under` lines under the words of the column that
    wraps; `aside` follows those words in small type.
    """

    cells: tuple[Cell, ...]
    before: tuple[str, ...] = ()
    aside: str = ""
    under: tuple[str, ...] = ()
    kind: Literal["", "strong", "sum", "total"] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Rows under the heads of their columns; one column wraps."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """Blocks under a heading, which may be empty; without any that tell something there is no heading either."""

    heading: str
    blocks: tuple[Block, ...]
    name: str = ""
    on: Where = "both"


Block: TypeAlias = Facts | Items | Lines | Paragraphs | Panel | Blanks | Table | Section


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A document of blocks: who gives it, what it is (`label`) of which `reference`, and what it tells."""

    label: str
    reference: str
    title: str
    firm: str = ""
    phone: str = ""
    blocks: tuple[Block, ...]


def empty(block: Block) -> bool:
    """Whether a block tells nothing."""
    match block:
        case Facts(facts=told) | Panel(facts=told) | Items(items=told) | Table(rows=told):
            return not told
        case Lines(lines=lines) | Paragraphs(lines=lines):
            return not lines
        case Section(blocks=blocks):
            return all(map(empty, blocks))
        case Blanks():
            return False
