"""A job reads what it names: few of the rows, one assembly, whatever else the catalogue holds."""

import subprocess
import sys
from pathlib import Path

import pytest
from tests.bundled import LIBRARY
from tests.examples import FIRM, JOBS

from splitpin.reading.visit import read_visit
from splitpin.records.words import HAND_OVER

OPENED = """
import sys
files = []
def heard(event, args):
    if event == "open" and str(args[0]).endswith((".toml", ".csv")):
        files.append(args[0])
sys.addaudithook(heard)
from typer.testing import CliRunner
from splitpin.cli.app import app
done = CliRunner().invoke(app, ["plan", sys.argv[1], "--json"])
assert done.exit_code == 0, done.stderr
print(*files, sep="\\n")
"""


def opened(job: Path) -> list[str]:
    done = subprocess.run([sys.executable, "-c", OPENED, job], capture_output=True, text=True, check=True)
    return done.stdout.split()


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_a_job_reads_fewer_rows_than_there_are(job: Path) -> None:
    visit, _ = read_visit(job)
    assert visit is not None
    library = visit.library
    assert HAND_OVER in library.proofs
    for few, every in (
        (library.proofs, LIBRARY.proofs),
        (library.conditions, LIBRARY.conditions),
        (library.hardware, LIBRARY.hardware),
        (library.seals, LIBRARY.seals),
        (library.media, LIBRARY.media),
    ):
        assert few.items() < every.items()
    assert (library.tools, library.parts) == (LIBRARY.tools, LIBRARY.parts)


def test_a_condition_brings_those_that_satisfy_it() -> None:
    for job in JOBS:
        visit, _ = read_visit(job)
        assert visit is not None
        for name, row in LIBRARY.conditions.items():
            if {*row.satisfies} & {*visit.library.conditions}:
                assert name in visit.library.conditions


def test_a_plan_opens_one_assembly_however_many_there_are(firm: Path) -> None:
    assemblies = firm / "catalog" / "assemblies"
    assemblies.mkdir(parents=True)
    for number in range(20):
        (assemblies / f"unit-{number}.toml").write_text("this is no TOML", encoding="utf-8")
    job = firm / "jobs" / "circulator-complete.toml"
    files = opened(job)
    assert [Path(name).name for name in files if "/assemblies/" in name] == ["circulator-set.toml"]
    assert [Path(name).name for name in files if "/builds/" in name] == ["wired-pump-head.toml"]
    assert not [name for name in files if "/procedures/jobs/" in name]
    assert len(files) == len(set(files))  # each once


def test_a_plan_opens_the_builds_and_the_template_that_are_named() -> None:
    files = [Path(name) for name in opened(FIRM / "jobs" / "heater-annual-service.toml")]
    assert {file.stem for file in files if file.parent.name == "builds"} == {
        "condensing-heater-body",
        "plugged-pump-head",
    }
    assert {file.stem for file in files if file.parent.parts[-2:] == ("procedures", "jobs")} == {"annual-service"}


def test_where_a_name_is_wrong_all_names_are_known(firm: Path) -> None:
    job = firm / "jobs" / "circulator-complete.toml"
    text = job.read_text("utf-8").replace("circulator-set", "circulator-st")
    job.write_text(text, encoding="utf-8")
    visit, notices = read_visit(job)
    assert visit is None
    hint = next(notice.hint for notice in notices if notice.code == "assembly-missing")
    assert hint.startswith("did you mean `circulator-set`")
