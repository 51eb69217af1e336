"""`splitpin time` and `splitpin maintainability` as a user types them."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from splitpin.cli.app import app

RUN = CliRunner()
JOBS = Path(__file__).resolve().parents[2] / "examples" / "skerrowdale" / "jobs"


def test_the_json_has_what_the_text_has() -> None:
    result = RUN.invoke(app, ["time", str(JOBS / "heater-fan.toml"), "--json", "--at", "90"])
    assert result.exit_code == 0
    found = json.loads(result.stdout)
    elapsed = next(row for row in found["times"] if row["name"] == "elapsed")
    assert found["booking"]["at"] == 90
    assert found["booking"]["seconds"] == elapsed["within"]["90"]
    assert found["allowance"] == 0.15
    assert found["allowance_basis"] == "work-time"
    assert found["while_there"] is None
    text = RUN.invoke(app, ["time", str(JOBS / "heater-fan.toml"), "--at", "90"]).stdout
    assert "enough in 90 of 100 visits" in text
    for row in found["causes"]:
        assert row["hands_on_s"] + row["idle_s"] < 30 or row["text"][1:40] in " ".join(text.split())


def test_the_same_files_give_the_same_bytes() -> None:
    first, again = (RUN.invoke(app, ["time", str(JOBS / "heater-pump.toml"), "--json"]).stdout_bytes for _ in range(2))
    assert first == again


@pytest.mark.parametrize("at", ["0", "100", "-3", "1e9", "nan"])
def test_a_share_of_visits_lies_between_0_and_100(at: str) -> None:
    result = RUN.invoke(app, ["time", str(JOBS / "heater-fan.toml"), "--at", at])
    assert result.exit_code == 2
    assert "--at is a share of 100 visits: above 0 and below 100" in result.stderr
    assert result.stdout == ""


def test_like_units_grow_quicker() -> None:
    job = str(JOBS / "ventilation-service.toml")
    found = json.loads(RUN.invoke(app, ["time", job, "--units", "4", "--rate", "80", "--json"]).stdout)
    hands_on = found["times"][0]["mean_s"]
    assert found["units"]["last_s"] == pytest.approx(0.64 * hands_on, abs=1)
    text = " ".join(RUN.invoke(app, ["time", job, "--units", "4", "--rate", "80"]).stdout.split())
    assert "On 4 like units, each doubling at 80 % of the time of a unit:" in text


def test_a_rate_without_units_or_out_of_bounds_is_refused() -> None:
    job = str(JOBS / "ventilation-service.toml")
    assert "say how many with --units" in RUN.invoke(app, ["time", job, "--rate", "80"]).stderr
    refused = RUN.invoke(app, ["time", job, "--units", "3", "--rate", "140"])
    assert refused.exit_code == 2
    assert "50 to 100, not 140" in refused.stderr


def test_a_job_that_is_not_there() -> None:
    result = RUN.invoke(app, ["time", str(JOBS / "no-such-job.toml")])
    assert result.exit_code == 1
    assert "file-missing" in result.stderr


def test_a_job_with_a_refused_task_still_has_times_for_the_rest() -> None:
    result = RUN.invoke(app, ["time", str(JOBS / "heat-pump-compressor.toml")])
    assert result.exit_code == 1
    assert "WHERE THE TIME GOES" in result.stdout


def test_an_unknown_site_factor_is_an_error_with_its_place(firm: Path) -> None:
    job = firm / "job.toml"
    text = (JOBS / "heater-fan.toml").read_text(encoding="utf-8")
    job.write_text(text.replace("[job]\n", '[job]\nsite_factors = ["crampt"]\n', 1), encoding="utf-8")
    result = RUN.invoke(app, ["time", str(job)])
    assert result.exit_code == 1
    assert "unknown-id" in result.stderr
    assert "did you mean `cramped`, declared at catalog/times.toml:" in result.stderr


def test_cramped_access_takes_longer(firm: Path) -> None:
    text = (JOBS / "heater-fan.toml").read_text(encoding="utf-8")
    means = []
    for name, line in (("wide", ""), ("tight", 'site_factors = ["cramped", "loft"]\n')):
        job = firm / f"{name}.toml"
        job.write_text(text.replace("[job]\n", f"[job]\n{line}", 1), encoding="utf-8")
        found = json.loads(RUN.invoke(app, ["time", str(job), "--json"]).stdout)
        means.append(found["times"][0]["mean_s"])
    assert means[1] > means[0] + 6 * 60


def test_maintainability_of_an_assembly() -> None:
    result = RUN.invoke(app, ["maintainability", "circulator-set"])
    assert result.exit_code == 0
    assert "Mean repair time" in result.stdout
    found = json.loads(RUN.invoke(app, ["maintainability", "circulator-set", "--json"]).stdout)
    assert found["assembly"] == "circulator-set"
    assert {row["reuse"] for row in found["joints"]} == {"reusable", "n-times", "inspect", "renew"}


def test_maintainability_of_an_assembly_that_is_not_there() -> None:
    result = RUN.invoke(app, ["maintainability", "circulator-sett"])
    assert result.exit_code == 2
    assert "did you mean circulator-set?" in result.stderr
