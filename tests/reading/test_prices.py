"""Prices as the firm keeps them."""

import datetime
from decimal import Decimal
from pathlib import Path

import pytest

from splitpin.reading.library import read_library
from splitpin.reading.prices import read_prices
from splitpin.records.prices import Price


def prices(tmp_path: Path, text: str) -> dict[str, Price]:
    file = tmp_path / "prices.csv"
    file.write_text(text, encoding="utf-8")
    found, notices = read_prices(file, read_library()[0])
    assert [notice for notice in notices if notice.severity == "error"] == []
    return found


@pytest.mark.usefixtures("small")
def test_a_row_is_read_whole(tmp_path: Path) -> None:
    head = "supplier_ref,part,cost,pack,valid_until,currency,description\n"
    (price,) = prices(tmp_path, head + "W-1,flat-washer,1.20,10,2027-01-31,GBP,=washer\n").values()
    assert price == Price(
        part="flat-washer",
        description="=washer",
        cost=Decimal("1.20"),
        currency="GBP",
        pack=10,
        supplier_ref="W-1",
        valid_until=datetime.date(2027, 1, 31),
    )


@pytest.mark.usefixtures("small")
def test_a_cost_left_open_is_open_not_nothing(tmp_path: Path) -> None:
    found = prices(tmp_path, "part,cost\npump,\nflat-washer,0\n")
    assert found["pump"].cost is None
    assert found["flat-washer"].cost == 0


@pytest.mark.usefixtures("small")
def test_a_designation_is_no_unknown_part(tmp_path: Path) -> None:
    file = tmp_path / "prices.csv"
    file.write_text("part,cost\nISO 4762 - M6 x 25 - 8.8,0.10\n", encoding="utf-8")
    assert read_prices(file, read_library()[0])[1] == ()


@pytest.mark.usefixtures("small")
def test_an_article_number_keeps_its_noughts_and_several_parts_may_name_it(tmp_path: Path) -> None:
    found = prices(tmp_path, "part,cost,gtin\npump,1,036000241457\nflat-washer,1,036000241457\nhead-gasket,1,\n")
    assert [price.gtin for price in found.values()] == ["036000241457", "036000241457", None]
