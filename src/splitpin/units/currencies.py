"""The currencies that can be charged in, with the smallest step of each.

Source: ISO 4217, list one, as far as it was seen; rows marked "from memory" were not. Minor digits are those of the
standard; two currencies count five sub-units to the unit, so their smallest step is not a power of ten.
"""

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Mark = Literal["seen", "from memory"]


@dataclass(frozen=True, slots=True)
class Currency:
    """One currency: its letters, its number, the digits after the point, and the least amount that can be paid."""

    code: str
    numeric: str
    minor_digits: int
    smallest: Decimal
    mark: Mark


def _decimal(code: str, numeric: str, minor_digits: int, mark: Mark = "seen") -> Currency:
    return Currency(code, numeric, minor_digits, Decimal(1).scaleb(-minor_digits), mark)


def _fifths(code: str, numeric: str) -> Currency:
    return Currency(code, numeric, 2, Decimal("0.20"), "seen")


CURRENCIES: dict[str, Currency] = {
    currency.code: currency
    for currency in (
        _decimal("AUD", "036", 2),
        _decimal("BHD", "048", 3),
        _decimal("CLF", "990", 4, "from memory"),
        _decimal("EUR", "978", 2),
        _decimal("GBP", "826", 2),
        _decimal("INR", "356", 2),
        _decimal("JOD", "400", 3, "from memory"),
        _decimal("JPY", "392", 0),
        _decimal("KRW", "410", 0),
        _decimal("KWD", "414", 3, "from memory"),
        _fifths("MGA", "969"),
        _fifths("MRU", "929"),
        _decimal("OMR", "512", 3, "from memory"),
        _decimal("TND", "788", 3, "from memory"),
        _decimal("USD", "840", 2),
        _decimal("XOF", "952", 0),
    )
}
