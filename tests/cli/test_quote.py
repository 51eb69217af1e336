"""`splitpin quote` as a user runs it."""

import json
import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from tests.cli.running import run

JOBS = sorted((Path(__file__).resolve().parents[2] / "examples" / "skerrowdale" / "jobs").glob("*.toml"))
REFUSED = "heat-pump-compressor"


def edit(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


@pytest.fixture(scope="session")
def schema() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run("schema", "quote").stdout)
    jsonschema.Draft202012Validator.check_schema(found)
    return found


@pytest.mark.parametrize("job", [job for job in JOBS if job.stem != REFUSED], ids=lambda job: job.stem)
def test_every_example_is_quoted_and_its_json_keeps_the_contract(job: Path, schema: dict[str, Any]) -> None:
    done = run("quote", job, "--json", "--date", "2026-11-25")
    assert done.returncode == 0, done.stderr
    quote = json.loads(done.stdout)
    jsonschema.validate(quote, schema)
    amounts = [Decimal(line["amount"]) for line in quote["lines"] if line["amount"] is not None]
    assert Decimal(quote["net"]) == sum(amounts)
    assert Decimal(quote["total"]) == sum(amounts) + Decimal(quote["tax"]["amount"])
    assert quote["unpriced"] == sum(line["amount"] is None for line in quote["lines"])
    assert done.stderr.count("warning[price-missing]") == quote["unpriced"] + quote["contingent_unpriced"]
    assert not re.search(r"-?\d+\.\d+(?!\")[,\n]", done.stdout)  # no bare number with a point: all money is text


def test_a_job_that_cannot_be_done_as_asked_has_no_price_and_no_page(root: Path, tmp_path: Path) -> None:
    job = root / "examples" / "skerrowdale" / "jobs" / f"{REFUSED}.toml"
    out = tmp_path / "quote.html"
    done = run("quote", job, "--out", out)
    assert (done.returncode, done.stdout, out.exists()) == (1, "", False)
    assert "error[not-quoted]: SK-2027-0058 is not quoted: it would leave out what is asked" in done.stderr


def test_a_surer_price_is_no_lower(root: Path) -> None:
    job = root / "examples" / "skerrowdale" / "jobs" / "heater-pump.toml"
    totals = [Decimal(json.loads(run("quote", job, "--json", "--at", at).stdout)["total"]) for at in (50, 80, 99)]
    assert totals == sorted(totals) and totals[0] < totals[2]


def test_the_page_is_written_whole_and_the_total_said(firm: Path, tmp_path: Path) -> None:
    out = tmp_path / "quote.html"
    done = run("quote", firm / "jobs" / "heater-pump.toml", "--out", out, "--valid-until", "2026-12-24")
    assert done.returncode == 0
    assert re.fullmatch(rf"{re.escape(str(out))}: \d+\.\d\d GBP\n", done.stdout)
    page = out.read_text(encoding="utf-8")
    assert page.startswith("<!DOCTYPE html>") and "Holds until Thu 24 Dec 2026" in page


def test_the_same_files_give_the_same_bytes(firm: Path) -> None:
    job = firm / "jobs" / "heater-pump.toml"
    assert run("quote", job).stdout == run("quote", job).stdout


def test_without_charges_there_is_no_quote(firm: Path) -> None:
    file = firm / "firm.toml"
    file.write_text(file.read_text(encoding="utf-8").partition("[charges]")[0], encoding="utf-8")
    done = run("quote", firm / "jobs" / "heater-pump.toml")
    assert (done.returncode, done.stdout) == (1, "")
    assert "error[missing-key]: this firm says nothing of what it charges" in done.stderr


def test_without_a_price_list_every_part_is_to_be_confirmed(firm: Path) -> None:
    (firm / "prices.csv").unlink()
    done = run("quote", firm / "jobs" / "heater-pump.toml")
    assert done.returncode == 0
    assert re.search(r"1 × pump.* head +to be confirmed", done.stdout)
    assert "Total without 2 lines that are to be confirmed" in done.stdout


def test_a_price_list_with_an_error_is_not_quoted_from(firm: Path) -> None:
    edit(firm / "prices.csv", "heater-pump-head,,92.40", "heater-pump-head,,-92.40")
    done = run("quote", firm / "jobs" / "heater-pump.toml")
    assert (done.returncode, done.stdout) == (1, "")
    assert re.search(
        r"prices\.csv:\d+:19: error\[out-of-range\]: `cost` is -92\.40; it must be at least 0", done.stderr
    )


def test_a_misspelt_part_goes_without_its_price_and_check_says_why(firm: Path) -> None:
    edit(firm / "prices.csv", "heater-pump-head", "heater-pump-haed")
    job = firm / "jobs" / "heater-pump.toml"
    assert (
        "`heater-pump-head` (heater pump head)" in run("quote", job).stderr
        or "heater-pump-head" in run("quote", job).stderr
    )
    assert "did you mean `heater-pump-head`?" in run("check", firm / "prices.csv").stderr


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("--at", "100"), "--at"),
        (("--date", "24.12.2026"), "--date"),
        (("--date", "2026-12-24", "--valid-until", "2026-12-23"), "--valid-until is 2026-12-23, before --date"),
        (("--out", "no-such-folder/quote.html"), "--out: there is no folder no-such-folder"),
        (("--out", "quote.html", "--paper", "A5"), "--paper is A5"),
    ],
)
def test_wrong_usage_is_told(root: Path, words: tuple[str, ...], message: str) -> None:
    done = run("quote", root / "examples" / "skerrowdale" / "jobs" / "heater-pump.toml", *words)
    assert (done.returncode, done.stdout) == (2, "")
    assert message in done.stderr
    assert "Traceback" not in done.stderr


def test_no_job_is_told() -> None:
    done = run("quote", "no-such-job.toml")
    assert (done.returncode, done.stderr) == (1, "no-such-job.toml: error[file-missing]: there is no such file\n")
