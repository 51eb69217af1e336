"""A trade article number as it stands under its bar code: GTIN of 8, 12, 13 or 14 digits, the last a check digit.

From the right the digits before it count three, one, three, ... times; the check digit fills the sum up to a whole ten
(GS1 General Specifications, check digit calculation, from memory). By hand: 6291041 50021 sums to 57, so 3.
"""

from splitpin.notices import Notice
from splitpin.reading.cells import Cell

LENGTHS = (8, 12, 13, 14)
_PLAIN = str.maketrans("", "", " -")


def check_digit(digits: str) -> int:
    """The check digit that belongs after `digits`, which are 0 to 9."""
    total = sum(int(digit) * (3 if at % 2 == 0 else 1) for at, digit in enumerate(reversed(digits)))
    return -total % 10


def gtin(cell: Cell | None) -> tuple[str | None, list[Notice]]:
    """The number in a cell and what is wrong with it; None where the cell is empty or not there. No digit is put in."""
    if cell is None or not cell.text:
        return None, []
    text = cell.text
    if not (text.isascii() and text.isdigit() and len(text) in LENGTHS):
        message = f"`gtin` is {text}; it must be the 8, 12, 13 or 14 digits under the bar code"
        return None, [Notice("wrong-kind", message, cell.place, _hint(text))]
    if check_digit(text[:-1]) != int(text[-1]):
        message = f"the digits of `gtin` {text} do not belong together: the check digit, the last, does not fit"
        hint = "one is wrong, or two are exchanged: read all of them again from the bar code, or leave the cell empty"
        return None, [Notice("check-digit", message, cell.place, hint)]
    return text, []


def _hint(text: str) -> str:
    plain = text.translate(_PLAIN)
    if "e+" in text.lower():
        return "a spreadsheet has shortened it: keep the column as text, and enter the number again"
    if not (plain.isascii() and plain.isdigit()):
        return "leave the cell empty where there is no such number"
    return f"write {plain}" if len(plain) in LENGTHS else "a spreadsheet drops noughts at the front: keep it as text"
