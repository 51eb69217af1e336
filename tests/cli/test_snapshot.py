"""A plan from a snapshot is the plan from the files, letter by letter; a snapshot counts only while nothing changed."""

import os
import pickle
import shutil
import subprocess
import sys
import time
import zlib
from pathlib import Path

import pytest

from splitpin.cli import cache, snapshot
from splitpin.cli.planned import visit_of
from splitpin.planning import plan_visit
from splitpin.records.plan import plan_json
from splitpin.sheets.language import ENGLISH
from splitpin.sheets.paper import step_sheet
from splitpin.sheets.pocket import pocket_sheet
from splitpin.sheets.terminal import plan_text

FIRM = Path(__file__).resolve().parents[2] / "examples" / "skerrowdale"
JOBS = sorted((FIRM / "jobs").glob("*.toml")) + sorted((FIRM / "reports").glob("smell*.toml"))
STAMP = ("stamp",)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder for snapshots, and everything settled."""
    monkeypatch.setenv(cache.VARIABLE, str(tmp_path / "kept"))
    monkeypatch.setattr(snapshot, "_SETTLED_S", -1.0)
    return tmp_path / "kept"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job of its own firm, free to be changed."""
    (tmp_path / "jobs").mkdir()
    shutil.copy(FIRM / "firm.toml", tmp_path)
    shutil.copy(FIRM / "jobs" / "heater-pump.toml", tmp_path / "jobs" / "pump.toml")
    return tmp_path / "jobs" / "pump.toml"


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_example_is_planned_and_printed_the_same(path: Path, tmp_path: Path) -> None:
    read = visit_of(path)
    snapshot.keep(tmp_path / "one.snapshot", STAMP, read)
    known = snapshot.recall(tmp_path / "one.snapshot", STAMP)
    assert known is not None and known[1] == read[1]
    documents = []
    for visit, notices in (read, known):
        plan = plan_visit(visit, said=notices)
        pages = [step_sheet(plan, visit.job, visit.firm, paper="Letter")]
        if plan.steps:
            pages.append(pocket_sheet(plan, visit.job, visit.firm, ENGLISH))
        documents.append([plan_json(plan), plan_text(plan, why=True), *pages])
    assert documents[0] == documents[1]


def test_the_second_time_nothing_is_read(folder: Path, job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = snapshot.known_visit(job)
    monkeypatch.setattr(snapshot, "visit_of", lambda job: pytest.fail("the files were read again"))
    visit, notices = snapshot.known_visit(job)
    assert len(list(folder.iterdir())) == 1
    assert (visit.job.job.reference, notices) == (first[0].job.job.reference, first[1])


@pytest.mark.parametrize("changed", ["job", "firm", "own catalogue", "folder"])
def test_whatever_changes_is_read(changed: str, folder: Path, job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    firm = job.parent.parent
    (firm / "catalog").mkdir()
    own = firm / "catalog" / "own.toml"
    own.write_text('format = 1\n[[licence]]\nid = "own"\nperson = "one of us"\n', encoding="utf-8")
    snapshot.known_visit(job)
    if changed == "job":
        text = job.read_text(encoding="utf-8")
        before = job.stat()
        job.write_text(text.replace("people = 1", "people = 2"), encoding="utf-8")
        os.utime(job, ns=(before.st_atime_ns, before.st_mtime_ns))  # same size, same time of its content
    elif changed == "firm":
        with (firm / "firm.toml").open("a", encoding="utf-8") as file:
            file.write("\n# another line\n")
    elif changed == "own catalogue":
        own.write_text(own.read_text(encoding="utf-8").replace("one of us", "one of ours"), encoding="utf-8")
    else:
        monkeypatch.chdir(job.parent)  # paths are printed from the working folder on
    read = []
    monkeypatch.setattr(snapshot, "visit_of", lambda job: read.append(job) or visit_of(job))
    snapshot.known_visit(job)
    assert read == [job]


def test_a_file_changed_a_moment_ago_is_not_trusted(folder: Path, job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(snapshot, "_SETTLED_S", 3600.0)  # the job was written within the hour
    snapshot.known_visit(job)
    assert not folder.exists()


@pytest.mark.parametrize("harm", ["cut short", "one bit", "emptied", "another kind", "a folder"])
def test_a_damaged_snapshot_counts_as_none(harm: str, tmp_path: Path) -> None:
    file = tmp_path / "one.snapshot"
    snapshot.keep(file, STAMP, visit_of(JOBS[0]))
    data = file.read_bytes()
    assert snapshot.recall(file, STAMP) is not None
    middle = len(data) // 2
    if harm == "a folder":
        file.unlink()
        file.mkdir()
    else:
        file.write_bytes(
            {
                "cut short": data[:middle],
                "one bit": data[:middle] + bytes([data[middle] ^ 1]) + data[middle + 1 :],
                "emptied": b"",
                "another kind": b"format = 1\n\n[job]\n",
            }[harm]
        )
    assert snapshot.recall(file, STAMP) is None


def test_a_snapshot_that_would_do_something_does_not(tmp_path: Path) -> None:
    """Whoever can write to the folder can write the check as well: so nothing but plain rows is taken."""
    done = tmp_path / "done"
    file = tmp_path / "one.snapshot"

    class Deed:
        def __reduce__(self) -> tuple[object, tuple[str]]:
            return os.mkdir, (str(done),)

    body = pickle.dumps(STAMP) + pickle.dumps(Deed())
    file.write_bytes(b"splitpin snapshot\n%08x\n" % zlib.crc32(body) + body)
    assert snapshot.recall(file, STAMP) is None
    assert not done.exists()


def test_no_more_are_kept_than_said(tmp_path: Path) -> None:
    read = visit_of(JOBS[0])
    for number in range(snapshot.KEPT + 3):
        snapshot.keep(tmp_path / f"{number}.snapshot", STAMP, read)
        os.utime(tmp_path / f"{number}.snapshot", ns=(number, number))
    names = {file.stem for file in tmp_path.iterdir()}
    assert len(names) == snapshot.KEPT and "0" not in names and str(snapshot.KEPT + 2) in names


def test_a_folder_that_cannot_be_made_keeps_none(
    tmp_path: Path, job: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder.write_text("a file stands where the folder would", encoding="utf-8")
    visit, _ = snapshot.known_visit(job)
    assert visit.job.job.reference and folder.is_file()
    monkeypatch.setenv(cache.VARIABLE, "")
    assert cache.cache_folder() is None and snapshot.known_visit(job)[0].job.job == visit.job.job


COMMAND = [sys.executable, "-c", "from splitpin.cli.start import main; main()"]


def test_the_command_says_the_same_both_times_and_loads_no_model(job: Path, tmp_path: Path) -> None:
    """By the command itself: the same output and notices, and the second time without the library of the records."""
    time.sleep(2.1)  # until the files count as settled
    environment = {**os.environ, cache.VARIABLE: str(tmp_path / "kept")}
    runs = [
        subprocess.run(
            [sys.executable, "-X", "importtime", *COMMAND[1:], "plan", job],
            capture_output=True,
            text=True,
            env=environment,
        )
        for _ in range(2)
    ]
    if not (tmp_path / "kept").exists():
        pytest.skip("a file of the program was changed within the last two seconds")
    loaded = [[line for line in run.stderr.splitlines() if line.startswith("import time")] for run in runs]
    notices = [[line for line in run.stderr.splitlines() if not line.startswith("import time")] for run in runs]
    assert runs[0].returncode == runs[1].returncode == 0
    assert (runs[0].stdout, notices[0]) == (runs[1].stdout, notices[1])
    assert any(line.endswith(" pydantic") for line in loaded[0])
    assert not any(line.endswith((" pydantic", " typer", " tomllib")) for line in loaded[1])


@pytest.mark.parametrize("words", [["plan"], ["plan", "--seconds", "2"], ["sheet", "--out"], ["plan", "nowhere.toml"]])
def test_what_is_said_otherwise_is_answered_as_usual(words: list[str], job: Path, tmp_path: Path) -> None:
    said = [*words[:1], str(job), *words[1:]] if words[-1] != "nowhere.toml" else words
    if words[-1] == "--out":
        said.append(str(tmp_path / "page.html"))
    usual = [sys.executable, "-c", "from splitpin.cli.app import app; app()"]
    answers = [subprocess.run([*how, *said], capture_output=True, text=True) for how in (COMMAND, usual)]
    assert (answers[0].returncode, answers[0].stdout, answers[0].stderr) == (
        answers[1].returncode,
        answers[1].stdout,
        answers[1].stderr,
    )


def test_compiled_templates_write_the_same_page_and_damage_does_no_harm(job: Path, tmp_path: Path) -> None:
    kept = tmp_path / "kept"
    pages = []
    for name in ("none", "first", "second", "damaged"):
        out = tmp_path / f"{name}.html"
        if name == "damaged":
            for file in kept.glob("*.template"):
                file.write_bytes(file.read_bytes()[:40])
        environment = {**os.environ, cache.VARIABLE: "" if name == "none" else str(kept)}
        subprocess.run([*COMMAND, "sheet", job, "--out", out], check=True, capture_output=True, env=environment)
        pages.append(out.read_bytes())
        assert bool(list(kept.glob("*.template"))) == (name != "none")
    assert len(set(pages)) == 1
