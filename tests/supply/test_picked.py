"""CSV that no spreadsheet works out."""

import csv
import io
from pathlib import Path

import pytest

from splitpin.records.supply import PickJob, PickLine, PickList, PickPlace, PickReason
from splitpin.supply.picked import HEAD, picked_csv, safe


def test_the_published_cases(reference: Path) -> None:
    # OWASP ASVS 1.2.10 and CWE-1236; cases in the reference data.
    with (reference / "data" / "csv_injection_cases.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == 9
    for row in rows:
        assert safe(row["input"]) == row["expected_text_cell"], row["why"]


def picks(title: str) -> PickList:
    line = PickLine(
        part="-fan",
        title=title,
        kind="replace",
        certain=True,
        wanted=5,
        from_van=1,
        bins=(PickPlace(location="=VAN-1", pieces=1),),
        draw=(PickPlace(location="A-01", pieces=2), PickPlace(location="B-01", pieces=1)),
        order=1,
        pack=10,
        packs=1,
        supplier_ref="@ref",
        gtin="0036000241457",
        reasons=(PickReason(job="J-1", pieces=5, because=("=cmd()", "two, three")),),
    )
    return PickList(splitpin="0", jobs=(PickJob(reference="J-1", title="t"),), lines=(line,))


@pytest.mark.parametrize("title", ["=1+1", '13 mm "AF", long', "two\nlines", "\r=1"])
def test_text_comes_back_whole_and_numbers_stay_numbers(title: str) -> None:
    text = picked_csv(picks(title))
    head, first, second = csv.reader(io.StringIO(text, newline=""))
    assert tuple(head) == HEAD
    assert first[:9] == ["A-01", "'-fan", safe(title), "replace", "5", "1", "'=VAN-1", "2", "1"]
    assert first[9:] == ["10", "1", "'@ref", "0036000241457", "yes", "", "5 J-1", "'=cmd() | two, three"]
    assert second[:9] == ["B-01", "'-fan", safe(title), "replace", "0", "0", "", "1", "0"]
    assert text.endswith("\r\n")


def test_totals_of_columns_are_those_of_the_list() -> None:
    rows = list(csv.DictReader(io.StringIO(picked_csv(picks("fan")), newline="")))
    assert [sum(int(row[name]) for row in rows) for name in ("wanted", "from_van", "draw", "order")] == [5, 1, 3, 1]
