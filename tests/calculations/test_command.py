"""`splitpin reading` as a user runs it."""

import json
from typing import Any

import pytest
from typer.testing import CliRunner

from splitpin.calculations.register import READINGS
from splitpin.cli.app import app


def run(*words: str) -> Any:
    return CliRunner().invoke(app, ["reading", *words])


def test_one_reading_prints_figure_limit_verdict_formula_and_source() -> None:
    done = run("co-co2-ratio", "co_ppm=361", "co2_percent=9.0")
    assert (done.exit_code, done.stderr) == (0, "")
    lines = done.stdout.splitlines()
    assert lines[:9] == [
        "co-co2-ratio: CO/CO2 ratio of the products of combustion",
        "",
        "Given",
        "  co_ppm=361 ppm",
        "  co2_percent=9.0 %",
        "",
        "Result",
        "  CO/CO2: 0.00401",
        "      limit: at most 0.004: does not pass (Great Britain)",
    ]
    assert "  ratio = co_ppm / 10 000 / co2_percent" in lines
    assert lines[lines.index("Source") + 1] == "  a trade-training page, with worked examples"
    assert max(map(len, lines)) <= 80


def test_every_reading_says_who_comes_first() -> None:
    said = " ".join(run("ladder-foot", "height_m=6").stdout.split())
    assert said.endswith("The maker's instructions, local codes and licensed persons come first.")


def test_on_the_edge_it_passes() -> None:
    assert (
        "      limit: at most 0.004: passes (Great Britain)"
        in run("co-co2-ratio", "co_ppm=350", "co2_percent=8.75").stdout.splitlines()
    )


def test_a_limit_that_is_not_set_says_so() -> None:
    done = run("co-co2-ratio", "co_ppm=361", "co2_percent=9.0", "--jurisdiction", "general")
    assert "      limit not set: enter from your standard (General)" in done.stdout.splitlines()
    assert "pass" not in done.stdout.partition("Formula")[0]


def test_the_edition_that_the_volume_leads_to_goes_by_the_date() -> None:
    words = ("installation-volume", "meter=g4", "copper_15_m=9", "--jurisdiction", "gb")
    for date, edition in (("2026-09-30", "Edition 3"), ("2026-10-01", "Edition 4")):
        said = " ".join(run(*words, "--date", date).stdout.split())
        assert "limit that follows: tightness-drop limit not set: enter from your standard (Great Britain)" in said
        assert f"{edition}]" in said
    assert "Its editions change with the day: give the date." in run(*words).stdout


def test_json_carries_the_same() -> None:
    found = json.loads(run("co-co2-ratio", "co_ppm=361", "co2_percent=9.0", "--json").stdout)
    ratio = found["results"][0]
    assert (ratio["value"], ratio["unit"]) == ("0.00401", "ratio")
    assert (ratio["limit"]["id"], ratio["limit"]["text"], ratio["limit"]["passes"]) == (
        "co-co2-ratio",
        "at most 0.004",
        False,
    )
    assert found["given"][1] == {"name": "co2_percent", "value": "9.0", "unit": "%", "default": False}


def test_without_a_name_every_reading_is_listed_with_its_inputs() -> None:
    done = run()
    assert done.exit_code == 0
    heads = [line for line in done.stdout.splitlines() if not line.startswith(" ")]
    assert heads == list(READINGS)
    assert "      co2_percent=… carbon dioxide in the products: 0.1 to 21 %" in done.stdout.splitlines()
    listed = json.loads(run("--json").stdout)["readings"]
    assert [one["name"] for one in listed] == list(READINGS)


def test_wrong_inputs_leave_with_one_and_say_all() -> None:
    done = run("co-co2-ratio", "co_ppm=361ppm")
    assert (done.exit_code, done.stdout) == (1, "")
    assert done.stderr == (
        "error: `co_ppm=361ppm` is not a figure\n"
        "  hint: write the figure alone, in ppm, with a decimal point; 0 to 20000 ppm\n"
        "error: `co2_percent` is missing: carbon dioxide in the products\n"
        "  hint: add co2_percent=…, 0.1 to 21 %\n"
    )


def test_wrong_inputs_in_json() -> None:
    done = run("ladder-foot", "height_m=40", "--json")
    assert done.exit_code == 1
    assert json.loads(done.stdout)["errors"] == [
        {
            "input": "height_m",
            "message": "`height_m=40` is out of range",
            "hint": "height at which it leans: 0.5 to 12 m; check the figure and its unit",
        }
    ]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("co-co2-ration",), "splitpin: there is no reading co-co2-ration; did you mean co-co2-ratio?\n"),
        (("xyzzy",), "splitpin: there is no reading xyzzy; splitpin reading lists them\n"),
        (
            ("ladder-foot", "height_m=4", "--jurisdiction", "bg"),
            "splitpin: there are no limits for bg; there are `gb` and `general`\n",
        ),
    ],
)
def test_wrong_usage_leaves_with_two(words: tuple[str, ...], said: str) -> None:
    done = run(*words)
    assert (done.exit_code, done.stdout, done.stderr) == (2, "", said)


def test_a_date_that_is_none_leaves_with_two() -> None:
    assert run("ladder-foot", "height_m=4", "--date", "1.10.2026").exit_code == 2
