"""Stock, vans and rounds as the firm keeps them."""

from pathlib import Path

import pytest

from splitpin.notices import Notice
from splitpin.reading.library import read_library
from splitpin.reading.round import read_round
from splitpin.reading.stock import read_stock
from splitpin.records.round import Stock

ROUND = 'format = 1\n[round]\nreference = "R"\ntitle = "T"\nvan = "van.toml"\n[[visit]]\njob = "job.toml"\n'
VAN = 'format = 1\n[van]\nid = "v"\ntitle = "V"\npayload_kg = 500\nsource = "plate"\n'
JOB = """format = 1
[job]
reference = "J"
title = "T"
assembly = "circulator-set"
[[task]]
do = "replace"
component = "motor-head"
"""


@pytest.mark.usefixtures("small")
def test_rows_keep_their_order_and_a_part_may_lie_in_two_places(tmp_path: Path) -> None:
    file = tmp_path / "van-stock.csv"
    file.write_text(
        "note,part,location,quantity\n=1,pump,VAN-2,1\n,pump,A-02-05-1,3\n,flat-washer,,0\n", encoding="utf-8"
    )
    rows, notices = read_stock(file, read_library()[0])
    assert notices == ()
    assert rows == (
        Stock(part="pump", quantity=1, location="VAN-2"),
        Stock(part="pump", quantity=3, location="A-02-05-1"),
        Stock(part="flat-washer", quantity=0),
    )
    assert [row.place.line for row in rows] == [2, 3, 4]


def laid_out(folder: Path, **files: str) -> Path:
    texts = {"round.toml": ROUND, "van.toml": VAN, "job.toml": JOB, **files}
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder / "round.toml"


def errors(notices: tuple[Notice, ...]) -> list[str]:
    return [f"{Path(one.place.path).name}:{one.place.line} {one.message}" for one in notices if one.severity == "error"]


def test_a_round_is_read_with_van_firm_jobs_and_stock(firm: Path) -> None:
    file = laid_out(
        firm,
        **{
            "van.toml": VAN + 'stock = "van-stock.csv"\n',
            "store-stock.csv": "part,quantity\ncirculator-head,2\n",
            "van-stock.csv": "part,quantity\ncirculator-head,1\n",
        },
    )
    found, notices = read_round(file)
    assert errors(notices) == []
    assert found is not None
    assert [visit.job.job.reference for _, visit in found.visits] == ["J"]
    assert [(row.part, row.quantity) for row in (*found.in_van, *found.in_store)] == [
        ("circulator-head", 1),
        ("circulator-head", 2),
    ]


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("round.toml", JOB, ["round.toml:1 this file is no round: it has no [round]"]),
        ("round.toml", "", ["round.toml:1 nothing in this file says what it describes"]),
        ("van.toml", JOB, ["van.toml:1 this file is no van: it has no [van]"]),
        ("van.toml", VAN + 'stock = "none-stock.csv"\n', ["none-stock.csv:0 there is no such file"]),
        ("job.toml", ROUND, ["job.toml:1 this file is no job: it has no [job]"]),
        ("job.toml", JOB.replace('title = "T"\n', ""), ["job.toml:2 [job] has no `title`"]),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_in_its_place(firm: Path, name: str, text: str, told: list[str]) -> None:
    found, notices = read_round(laid_out(firm, **{name: text}))
    assert found is None
    assert errors(notices) == told


def test_a_round_without_a_firm_is_told(firm: Path) -> None:
    file = laid_out(firm)
    (firm / "firm.toml").unlink()
    found, notices = read_round(file)
    assert found is None
    assert "there is no firm.toml in this job's folder or above it" in {one.message for one in notices}
