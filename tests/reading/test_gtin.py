"""Check digits of article numbers, against published ones."""

import csv
from pathlib import Path

import pytest

from splitpin.notices import Place
from splitpin.reading.cells import Cell
from splitpin.reading.gtin import check_digit, gtin

PLACE = Place("prices.csv", 3, 9, 13)


def test_the_published_check_digits(reference: Path) -> None:
    """Worked examples of GS1's bodies in Hong Kong, India and Sweden, and one of twelve digits."""
    with (reference / "data" / "barcode_checks.csv").open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["scheme"].startswith("GTIN")]
    assert len(rows) == 4
    for row in rows:
        digits, digit = row["data"], row["check"].split()[0]  # "3 (sum 57)"
        assert check_digit(digits) == int(digit), row["status"]
        assert gtin(Cell(digits + digit, PLACE)) == (digits + digit, [])


@pytest.mark.parametrize("digits", ["629104150021", "890400021003", "730001100001"])
def test_one_wrong_digit_is_always_found(digits: str) -> None:
    right = digits + str(check_digit(digits))
    wrong = [right[:at] + other + right[at + 1 :] for at in range(13) for other in "0123456789" if other != right[at]]
    for number in wrong:
        assert [notice.code for notice in gtin(Cell(number, PLACE))[1]] == ["check-digit"]


@pytest.mark.parametrize("length", range(1, 20))
def test_only_the_lengths_of_the_standard_are_taken(length: int) -> None:
    text = "1" * (length - 1)
    codes = [notice.code for notice in gtin(Cell(text + str(check_digit(text)), PLACE))[1]]
    assert codes == ([] if length in (8, 12, 13, 14) else ["wrong-kind"])


def test_an_empty_cell_and_no_column_are_no_number() -> None:
    assert gtin(None) == gtin(Cell("", PLACE)) == (None, [])
