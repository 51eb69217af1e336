"""`splitpin history STORE --spares SUM` as it is run."""

import datetime
import json
from pathlib import Path

import jsonschema
import pytest
from tests.cli.running import run
from tests.history.made import visit

from splitpin.history import store
from splitpin.records.actual import ActualPart
from splitpin.records.spares import SpareList
from splitpin.sheets.stock.spares_text import spares_text


@pytest.fixture
def record(firm: Path) -> Path:
    """A firm with twelve visits, all of which used a head and four of them an O-ring too."""
    (firm / "prices.csv").write_text(
        "part,cost,pack\ncirculator-head,84.20,1\npump-head-o-ring,3.60,10\n", encoding="utf-8"
    )
    path = firm / "visits.sqlite"
    head, ring = ActualPart(part="circulator-head", quantity=1), ActualPart(part="pump-head-o-ring", quantity=1)
    with store(path, create=True) as opened:
        for day in range(1, 13):
            used = (head, ring) if day <= 4 else (head,)
            opened.add(visit(f"J-{day}", date=datetime.date(2026, 3, day), parts=used))
    return path


def test_spares_for_a_sum_are_listed(record: Path) -> None:
    done = run("history", record, "--spares", "100", "--visits", "3")
    assert (done.returncode, done.stderr) == (0, "")
    assert (
        done.stdout
        == """\
Spares to keep in the van for 100 GBP, for the 3 visits until it is refilled

  keep        cost  runs short  missing on average  part
     1       84.20         78%        3.12 to 2.19  circulator-head: circulator motor head
    10        3.60          0%        1.12 to 0.00  pump-head-o-ring: pump head O-ring, in packs of 10
  total 87.80 GBP; missing 4.25 pieces without, 2.19 with them

Proved best: nothing else that the money buys leaves fewer pieces missing.
"""
    )


def test_json_keeps_its_schema_and_is_the_same_each_time(record: Path) -> None:
    done = run("history", record, "--spares", "500", "--json")
    found = json.loads(done.stdout)
    jsonschema.validate(found, json.loads(run("schema", "spares").stdout))
    assert (found["money"], found["currency"], found["status"], found["little_known"]) == (
        "500",
        "GBP",
        "proved",
        False,
    )
    assert [line["keep"] for line in found["lines"]] == [5, 20]
    assert done.stdout == run("history", record, "--spares", "500", "--json", seed="7").stdout


def test_a_short_record_is_said_to_teach_little(record: Path) -> None:
    told = run("history", record, "--spares", "100", "--visits", "20").stdout
    assert "Little is known yet: 12 visits on record name parts used." in told
    assert "Little is known yet" in run("history", record, "--visits", "20").stdout
    assert "Little is known yet" not in run("history", record).stdout
    assert [row["enough_95"] for row in json.loads(run("history", record, "--json").stdout)["parts"]] == [18, 9]


@pytest.mark.parametrize("words", [["12,50"], ["-5"], ["£5"], ["5", "--export", "v.csv"], ["5", "--visits", "0"]])
def test_wrong_words_are_wrong_usage(record: Path, words: list[str]) -> None:
    done = run("history", record, "--spares", *words)
    assert (done.returncode, done.stdout) == (2, "")
    assert "Traceback" not in done.stderr and done.stderr


def test_without_prices_or_firm_nothing_is_reckoned(record: Path) -> None:
    (record.parent / "prices.csv").unlink()
    done = run("history", record, "--spares", "5")
    assert done.returncode == 1 and done.stdout == ""
    assert "error[file-missing]: there is no such file" in done.stderr and "`part` and `cost`" in done.stderr
    (record.parent / "firm.toml").unlink()
    done = run("history", record, "--spares", "5")
    assert done.returncode == 2 and "keep the record in the firm's folder" in done.stderr


def test_prices_with_errors_are_told_and_a_missing_price_leaves_the_part_out(record: Path) -> None:
    prices = record.parent / "prices.csv"
    prices.write_text("part,cost\ncirculator-head,many\n", encoding="utf-8")
    done = run("history", record, "--spares", "5")
    assert (done.returncode, done.stdout) == (1, "") and "error[wrong-kind]: `cost` is many" in done.stderr
    prices.write_text("part,cost\ncirculator-head,\n", encoding="utf-8")
    done = run("history", record, "--spares", "5")
    assert done.returncode == 0
    assert "circulator-head (`cost` left open), pump-head-o-ring (no row)" in " ".join(done.stdout.split())


def test_an_empty_record_has_nothing_to_reckon_from(record: Path) -> None:
    empty = record.parent / "empty.sqlite"
    empty.touch()
    done = run("history", empty, "--spares", "5")
    assert done.returncode == 0 and "No visit on record names a part that it used" in done.stdout
    assert json.loads(run("history", empty, "--spares", "5", "--json").stdout)["lines"] == []


def test_what_is_not_proved_says_how_far_it_may_be_from_best(record: Path) -> None:
    found = SpareList.model_validate_json(run("history", record, "--spares", "100", "--json").stdout)
    told = spares_text(found.model_copy(update={"status": "bounded", "at_least": 1.5}))
    assert "Best found; 1.50 pieces would be missing at the least" in told and "Proved" not in told
