"""`splitpin pick` and `splitpin load` as a person types them."""

import json
from pathlib import Path

import jsonschema
import pytest
from typer.testing import CliRunner, Result

from splitpin.cli.app import app

ROOT = Path(__file__).resolve().parent.parent.parent
FIRM = ROOT / "examples" / "skerrowdale"
ROUND = str(FIRM / "rounds" / "thursday-van-2.toml")
JOBS = [
    str(FIRM / "jobs" / f"{name}.toml") for name in ("heater-main-board", "heater-fan", "circulator-head-drain-down")
]
NAMES = "format = 1\n[round]\nreference = 'R'\ntitle = 'T'\nvan = 'v.toml'\n[[visit]]\njob = 'j.toml'\n"


def run(*words: str) -> Result:
    return CliRunner().invoke(app, list(words))


def test_a_round_is_loaded_on_the_terminal() -> None:
    result = run("load", ROUND)
    assert result.exit_code == 0
    assert result.stdout.startswith("Load for round RD-2027-03-11: Thursday, Skerrow and Upper Skerrow\n")
    assert max(map(len, result.stdout.splitlines())) <= 80
    for heading in (
        "FROM THE STORE, IN THIS ORDER",
        "LEFT BEHIND",
        "TOOLS",
        "LICENCES",
        "INTO THE VAN, IN THIS ORDER",
        "THE SAME ROUND, LOADED OTHERWISE",
    ):
        assert f"\n{heading}\n" in result.stdout


def test_a_load_as_json_and_as_a_page(tmp_path: Path) -> None:
    found = json.loads(run("load", ROUND, "--json").stdout)
    assert [job["n"] for job in found["jobs"]] == [1, 2, 3, 4, 5, 6]
    out = tmp_path / "load.html"
    result = run("load", ROUND, "--out", str(out))
    assert result.stdout == f"{out}: 6 jobs, {found['finished']:.2f} expected to be finished\n"
    page = out.read_text(encoding="utf-8")
    assert page.startswith("<!DOCTYPE html>") and page.count('class="qr"') == sum(
        len(row["draw"]) for row in found["lines"]
    )
    assert "http" not in page.replace("http://www.w3.org/2000/svg", "")
    run("load", ROUND, "--out", str(tmp_path / "again.html"))
    assert (tmp_path / "again.html").read_text(encoding="utf-8") == page


def test_no_time_at_all_still_gives_a_load() -> None:
    assert run("load", ROUND, "--seconds", "0").exit_code in (0, 3)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (None, "there is no such file"),
        ("", "nothing in this file says what it describes"),
        ("format = 1\n[round]\n", "[round] has no `reference`"),
        ("format = 1\n[job]\nreference = 'x'\n", "this file is no round: it has no [round]"),
        (NAMES, "there is no firm.toml"),
    ],
    ids=["missing", "empty", "half", "job", "names"],
)  # fmt: skip
def test_a_wrong_round_is_told(tmp_path: Path, text: str | None, told: str) -> None:
    file = tmp_path / "round.toml"
    if text is not None:
        file.write_text(text, encoding="utf-8")
    result = run("load", str(file))
    assert result.exit_code == 1
    assert told in result.stderr
    assert result.stdout == ""


def test_a_pick_list_on_the_terminal_with_reasons() -> None:
    result = run("pick", *JOBS)
    assert result.exit_code == 0
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert "\nDRAW FROM THE STORE, IN THIS ORDER\n  Location   Pieces  Part\n" in result.stdout
    assert "\n  A-01-02-3       1  main control board\n" in result.stdout
    assert "Number: heater-main-board\n" in result.stdout
    assert "asks to replace the main control board" in " ".join(result.stdout.split())


def test_a_pick_list_as_json_csv_and_page(tmp_path: Path) -> None:
    van = str(FIRM / "vans" / "van-2.toml")
    found = json.loads(run("pick", *JOBS, "--van", van, "--json").stdout)
    table, out = tmp_path / "pick.csv", tmp_path / "pick.html"
    result = run("pick", *JOBS, "--van", van, "--csv", str(table), "--out", str(out))
    assert result.stdout == f"{out}, {table}: {len(found['lines'])} lines for 3 jobs\n"
    assert table.read_bytes().count(b"\r\n") == 1 + sum(max(1, len(line["draw"])) for line in found["lines"])
    page = out.read_text(encoding="utf-8")
    places = [page.index(f">{place['location']}<") for line in found["lines"] for place in line["draw"]]
    assert places == sorted(places)  # printed in picking order


def test_a_job_of_symptoms_alone_is_named_and_sent_on() -> None:
    result = run("pick", JOBS[0], str(FIRM / "reports" / "heater-goes-out.toml"))
    assert result.exit_code == 1
    assert "only symptoms are known" in " ".join(result.stdout.split())


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([JOBS[0], JOBS[0]], "is named twice"),
        ([JOBS[0], "--csv", "no/such/folder.csv"], "--csv: there is no folder no/such"),
        ([JOBS[0], "--out", "x.html", "--paper", "A5"], "--paper is A5; it may be A4 or Letter"),
        ([JOBS[0], "--out", "x.html", "--language", "fr"], "--language is fr; it may be en, de, es"),
    ],
    ids=["twice", "folder", "paper", "language"],
)
def test_wrong_usage_of_pick_is_told(words: list[str], told: str) -> None:
    result = run("pick", *words)
    assert result.exit_code == 2
    assert told in result.stderr


def test_a_van_that_is_none_is_told() -> None:
    result = run("pick", JOBS[0], "--van", JOBS[0])
    assert result.exit_code == 1
    assert "this file is no van: it has no [van]" in result.stderr


def test_json_keeps_the_schemas_that_are_handed_out() -> None:
    for name, words in (("load", [ROUND]), ("pick", JOBS)):
        schema = json.loads(run("schema", name).stdout)
        jsonschema.validate(json.loads(run(name, *words, "--json").stdout), schema)


def test_both_pages_are_written_in_the_language_asked_for(tmp_path: Path) -> None:
    out = tmp_path / "page.html"
    for words, said in ((("pick", JOBS[0]), "Entnahmeliste f\u00fcr"), (("load", ROUND), "Ladeliste zur Tour")):
        assert run(*words, "--out", str(out), "--language", "de").exit_code == 0
        assert said in out.read_text(encoding="utf-8")
