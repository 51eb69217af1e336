"""Every command as a user runs it: what is printed where, and the exit code."""

import json
import signal
import subprocess
import time
from pathlib import Path

import jsonschema
import pytest
from tests.cli.running import SPLITPIN, run

JOBS = sorted((Path(__file__).resolve().parents[2] / "examples" / "skerrowdale" / "jobs").glob("*.toml"))
REFUSED = "heat-pump-compressor"

JOB = """\
format = 1
[job]
reference = "T-1"
title = "test"
assembly = "circulator-set"
{more}
[[task]]
do = "{do}"
component = "{component}"
"""


@pytest.fixture
def job(firm: Path) -> Path:
    path = firm / "job.toml"
    path.write_text(JOB.format(do="replace", component="motor-head", more=""), encoding="utf-8")
    return path


def test_help_names_every_command() -> None:
    done = run("--help")
    assert done.returncode == 0
    for command in ("check", "list", "show", "plan", "sheet", "schema"):
        assert f"  {command} " in done.stdout


def test_the_catalogue_has_no_errors() -> None:
    done = run("check")
    assert (done.returncode, done.stdout) == (0, "no errors\n"), done.stderr


def test_list_gives_assemblies_and_templates() -> None:
    rows = json.loads(run("list", "--json").stdout)
    assert "circulator-set" in [row["id"] for row in rows["assemblies"]]
    assert "annual-service" in [row["id"] for row in rows["templates"]]
    assert "circulator-set" in run("list").stdout


def test_show_prints_what_an_assembly_is_made_of() -> None:
    done = run("show", "circulator-set")
    assert done.returncode == 0
    assert "motor-head" in done.stdout and "service-valves" in done.stdout


def test_show_suggests_a_near_name_and_exits_with_two() -> None:
    done = run("show", "circulator-sett")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "splitpin: there is no assembly circulator-sett; did you mean circulator-set?\n"


@pytest.fixture(scope="module")
def plan_schema() -> dict[str, object]:
    schema: dict[str, object] = json.loads(run("schema", "plan").stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    return schema


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_example_job_plans_to_its_schema_whatever_the_hash_seed(
    path: Path, plan_schema: dict[str, object]
) -> None:
    done, again = run("plan", path, "--json", seed="1"), run("plan", path, "--json", seed="4242")
    assert (done.stdout, done.stderr) == (again.stdout, again.stderr)
    plan = json.loads(done.stdout)
    jsonschema.validate(plan, plan_schema)
    refused = path.stem == REFUSED
    assert plan["status"] == ("impossible" if refused else "proved")
    assert done.returncode == (1 if refused else 0)
    assert plan["steps"] and plan["proofs"]
    assert [step["n"] for step in plan["steps"]] == list(range(1, len(plan["steps"]) + 1))


@pytest.mark.parametrize("name", ["diagnosis", "quote", "pick", "load", "spares", "job", "assembly", "visit"])
def test_the_other_schemas_are_schemas(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(json.loads(run("schema", name).stdout))


def test_an_unknown_schema_is_a_usage_error() -> None:
    done = run("schema", "van")
    assert (done.returncode, done.stdout) == (2, "")
    there = "plan, diagnosis, quote, pick, load, spares, job, assembly, visit"
    assert done.stderr == f"splitpin: there is no schema of van; there is one of {there}\n"


def test_a_refused_task_is_named_and_the_rest_is_planned() -> None:
    path = next(path for path in JOBS if path.stem == REFUSED)
    done = run("plan", path)
    assert done.returncode == 1
    assert "error[closed-to]: refused: replace the compressor" in done.stderr
    assert "MAKE SAFE" in done.stdout


def test_the_terminal_plan_fits_eighty_columns(job: Path) -> None:
    done = run("plan", job, "--why")
    assert done.returncode == 0
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert str(job) in done.stdout.replace("\n", "").replace(" ", "") or "job.toml" in done.stdout


def test_ruling_out_every_isolation_says_which_rules_clash(job: Path) -> None:
    job.write_text(
        JOB.format(do="replace", component="motor-head", more='rule_out = ["service-valves", "system-drain"]'),
        encoding="utf-8",
    )
    done = run("plan", job)
    assert done.returncode == 1
    assert "error[no-way]: the circuit primary cannot be isolated: the job rules out" in done.stderr


def test_the_sheet_is_written_whole_and_says_where(job: Path, tmp_path: Path) -> None:
    out = tmp_path / "sheet.html"
    done = run("sheet", job, "--out", out)
    assert done.returncode == 0
    assert done.stdout.startswith(f"{out}: ")
    assert out.read_text(encoding="utf-8").endswith("</html>\n")
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


def test_a_sheet_into_no_folder_is_a_usage_error(job: Path, tmp_path: Path) -> None:
    done = run("sheet", job, "--out", tmp_path / "none" / "sheet.html")
    assert done.returncode == 2
    assert done.stderr == f"splitpin: --out: there is no folder {tmp_path / 'none'}\n"


def test_a_missing_job_is_an_error_with_its_path(tmp_path: Path) -> None:
    done = run("plan", tmp_path / "none.toml")
    assert (done.returncode, done.stdout) == (1, "")
    assert "error[file-missing]" in done.stderr


def test_no_time_at_all_still_gives_a_plan_and_says_so(job: Path) -> None:
    done = run("plan", job, "--json", "--seconds", "0")
    plan = json.loads(done.stdout)
    assert plan["status"] in ("proved", "bounded")
    assert done.returncode == {"proved": 0, "bounded": 3}[plan["status"]]
    assert (plan["gap_s"] > 0) == (plan["status"] == "bounded")


def test_ctrl_c_gives_the_best_plan_so_far_marked_so(job: Path) -> None:
    text = JOB.format(do="replace", component="exchanger", more="")
    for component in (  # more at once than is proved best within a minute
        *("plate-exchanger", "flow-block", "fan", "gas-valve", "main-board", "display", "harness", "mixer", "burner"),
        *("diverter-cartridge", "inlet-filter", "flow-sensor", "ignition-unit"),
    ):
        text += f'[[task]]\ndo = "replace"\ncomponent = "{component}"\n'
    job.write_text(text.replace("circulator-set", "wall-hung-combination-heater"), encoding="utf-8")
    with subprocess.Popen([SPLITPIN, "plan", job, "--json"], stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        time.sleep(4)  # time to start on a busy machine
        if process.poll() is not None:
            pytest.skip("the plan was proved before it could be interrupted")
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=20)
    plan = json.loads(out)
    assert (process.returncode, plan["status"]) == (3, "bounded")
    assert plan["gap_s"] > 0 and plan["steps"]
    assert b"warning[not-proved]: stopped at the limit: the plan is at most" in err
