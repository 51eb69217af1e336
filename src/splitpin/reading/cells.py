"""A table of cells parted by commas (RFC 4180), each cell with its place.

By hand: `a,"b, ""c"" d"` is two cells, `a` at column 1 and `b, "c" d` at column 3. Every cell is text; nothing is
worked out.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from splitpin.notices import Notice, Place
from splitpin.notices.nearest import listed, nearest
from splitpin.reading.source import Source
from splitpin.units import counted


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in a cell, blanks at its ends left out, and where."""

    text: str
    place: Place


@dataclass(frozen=True, slots=True)
class Row:
    """The cells of a line by column. An optional column that the file does not have gives an empty cell."""

    cells: dict[str, Cell]
    place: Place

    def text(self, column: str) -> str:
        """The text of a cell; empty where the column is not there."""
        return self.cells[column].text if column in self.cells else ""


def table(source: Source, needed: Sequence[str], optional: Sequence[str]) -> tuple[list[Row], list[Notice]]:
    """The rows under a head that names the columns in any order, and what is wrong with head and rows.

    No row is given where a column is wrong; a row of another width is left out. Cost grows with the length of the text.
    """
    lines, notices = _lines(source)
    if notices:
        return [], notices
    if not lines:
        hint = f"begin it with a line that names the columns: {','.join([*needed, *optional])}"
        return [], [Notice("csv-syntax", "there is no line that names the columns", Place(source.path), hint)]
    head, *body = lines
    notices = _head(head, needed, optional)
    if notices:
        return [], notices
    names = [cell.text for cell in head]
    rows = []
    for line in body:
        if len(line) == len(names):
            rows.append(Row(dict(zip(names, line, strict=True)), line[0].place))
        else:
            message = f"this line has {counted(len(line), 'cell')} under {counted(len(names), 'column')}"
            hint = "a cell with a comma in it stands in double quotes"
            notices.append(Notice("csv-syntax", message, line[0].place, hint))
    return rows, notices


def _head(head: Sequence[Cell], needed: Sequence[str], optional: Sequence[str]) -> list[Notice]:
    known = [*needed, *optional]
    if len(head) == 1 and ";" in head[0].text:
        return [Notice("csv-syntax", "the cells are parted by semicolons", head[0].place, "part them by commas")]
    names = [cell.text for cell in head]
    free = [name for name in known if name not in names]
    meant: set[str | None] = set()
    notices = []
    for at, cell in enumerate(head):
        if cell.text not in known:
            near = nearest(cell.text, free)
            meant.add(near)
            hint = f"did you mean `{near}`?" if near else f"the columns are {listed(known, 'and')}"
            notices.append(Notice("unknown-key", f"`{cell.text}` is not a column of this table", cell.place, hint))
        elif cell.text in names[:at]:
            notices.append(Notice("csv-syntax", f"the column `{cell.text}` is there twice", cell.place))
    missing = [name for name in needed if name in free and name not in meant]
    return notices + [Notice("missing-key", f"this table has no column `{name}`", head[0].place) for name in missing]


def _lines(source: Source) -> tuple[list[list[Cell]], list[Notice]]:
    """The cells of every line that is neither empty nor a comment; nothing where a quote is not closed."""
    found: list[list[Cell]] = []
    reader = _Reader(source)
    while not reader.at_end():
        line = list(reader.line())
        if reader.fault is not None:
            return [], [reader.fault]
        if any(cell.text for cell in line) and not line[0].text.startswith("#"):
            found.append(line)
    return found, []


class _Reader:
    """Goes through the text once; line and column are counted from 1."""

    def __init__(self, source: Source) -> None:
        self.path = source.path
        self.text = source.text
        self.at = 0
        self.line_n = 1
        self.line_start = 0
        self.fault: Notice | None = None

    def at_end(self) -> bool:
        return self.at >= len(self.text)

    def line(self) -> Iterator[Cell]:
        """The cells up to the line end, which is passed; a comment is one cell."""
        if self.text.startswith("#", self.at):
            yield self._bare("\n")
        else:
            yield self._cell()
            while self.fault is None and self.text.startswith(",", self.at):
                self.at += 1
                yield self._cell()
        if self.fault is None and not self.at_end():
            self._newline()

    def _newline(self) -> None:
        self.at += 1
        self.line_n += 1
        self.line_start = self.at

    def _place(self, start: int, end: int) -> Place:
        return Place(self.path, self.line_n, start - self.line_start + 1, max(1, end - start))

    def _cell(self) -> Cell:
        while self.text.startswith((" ", "\t"), self.at):
            self.at += 1
        return self._quoted() if self.text.startswith('"', self.at) else self._bare(",\n")

    def _bare(self, ends: str) -> Cell:
        start = self.at
        while not self.at_end() and self.text[self.at] not in ends:
            self.at += 1
        text = self.text[start : self.at].strip()
        return Cell(text, self._place(start, start + len(text)))

    def _quoted(self) -> Cell:
        start, line_n = self.at, self.line_n
        place = self._place(start, start + 1)
        self.at += 1
        written = ""
        while True:
            quote = self.text.find('"', self.at)
            if quote < 0:
                self.fault = Notice("csv-syntax", "the quote that begins here is not closed", place)
                return Cell("", place)
            part = self.text[self.at : quote]
            written += part
            if "\n" in part:
                self.line_n += part.count("\n")
                self.line_start = self.at + part.rindex("\n") + 1
            self.at = quote + 1
            if not self.text.startswith('"', self.at):
                break
            written += '"'
            self.at += 1
        if self.line_n == line_n:
            place = self._place(start, self.at)
        while self.text.startswith((" ", "\t"), self.at):
            self.at += 1
        if not self.at_end() and self.text[self.at] not in ",\n":
            here = self._place(self.at, self.at + 1)
            hint = "a quote within a cell is doubled"
            self.fault = Notice("csv-syntax", "something stands between a closing quote and the comma", here, hint)
        return Cell(written.strip(), place)
