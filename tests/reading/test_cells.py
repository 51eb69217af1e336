"""Cells of a table: the standard library's csv module is the referee for what they say; places are counted by hand."""

import csv
import io
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from splitpin.reading.cells import table
from splitpin.reading.source import Source

WORDS = st.text(st.characters(codec="utf-8", exclude_characters="\r\x00"), max_size=12)


def read(text: str, *columns: str) -> list[dict[str, str]]:
    rows, notices = table(Source("prices.csv", text), columns, ())
    assert notices == []
    return [{name: cell.text for name, cell in row.cells.items()} for row in rows]


@given(st.lists(st.tuples(WORDS, WORDS, WORDS), max_size=6))
def test_a_table_reads_as_the_standard_library_reads_it(body: list[tuple[str, str, str]]) -> None:
    file = io.StringIO()
    writer = csv.writer(file, lineterminator="\n", quoting=csv.QUOTE_ALL)
    writer.writerow(("a", "b", "c"))
    writer.writerows(body)
    again = list(csv.reader(io.StringIO(file.getvalue(), newline=""), strict=True))[1:]
    wanted = [[cell.strip() for cell in line] for line in again]
    # a row without any words, or one that begins as a comment does, is left out
    wanted = [line for line in wanted if any(line) and not line[0].startswith("#")]
    assert [list(row.values()) for row in read(file.getvalue(), "a", "b", "c")] == wanted


@pytest.mark.parametrize("name", ["csv_injection_cases.csv", "currency_minor_units.csv", "rounding_modes.csv"])
def test_published_tables_read_as_the_standard_library_reads_them(name: str, reference: Path) -> None:
    # shared/reference/data, which the standard library's reader is asked about as well; blanks at the ends apart
    text = (reference / "data" / name).read_bytes().decode("utf-8").replace("\r\n", "\n")
    rows = [[cell.strip() for cell in row] for row in csv.reader(io.StringIO(text, newline=""))]
    assert [list(row.values()) for row in read(text, *rows[0])] == rows[1:]


def test_a_cell_knows_its_line_and_column() -> None:
    rows, _ = table(Source("p.csv", 'a,b\n\n# words\n1, 2\n"x\ny",  "z"\nlast,"one ""w"""\n'), ("a", "b"), ())
    places = [[(cell.place.line, cell.place.column, cell.place.width) for cell in row.cells.values()] for row in rows]
    assert places == [[(4, 1, 1), (4, 4, 1)], [(5, 1, 1), (6, 6, 3)], [(7, 1, 4), (7, 6, 11)]]
    assert rows[2].text("b") == 'one "w"'


def test_text_that_looks_like_a_formula_stays_text() -> None:
    assert read("a\n=1+1\n@sum(A1)\n-5% off\n", "a") == [{"a": "=1+1"}, {"a": "@sum(A1)"}, {"a": "-5% off"}]


def test_something_after_a_closing_quote_is_told() -> None:
    rows, (notice,) = table(Source("p.csv", 'a,b\n"one" two,3\n'), ("a", "b"), ())
    assert rows == []
    assert (notice.code, notice.place.line, notice.place.column) == ("csv-syntax", 2, 7)
