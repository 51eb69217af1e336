"""What is written reads back: every file of the catalogue, the procedures and the examples, and new jobs."""

from pathlib import Path

import pytest
from tests.bundled import LIBRARY

from splitpin.reading.library import data_files, read_documents
from splitpin.reading.visit import read_visit
from splitpin.records.assembly import BuildFile
from splitpin.records.base import Record
from splitpin.writing import canonical, new_job

ROOT = Path(__file__).resolve().parents[2]
FILES = [*data_files(), *sorted((ROOT / "examples").rglob("*.toml"))]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_file_says_the_same_when_written_again(path: Path, tmp_path: Path) -> None:
    documents, _ = read_documents([path])
    record = documents[0].record
    assert isinstance(record, Record)
    if isinstance(record, BuildFile):
        pytest.skip("a build has blanks: it is written where an assembly includes it")
    again = tmp_path / path.name
    again.write_text(canonical(record), encoding="utf-8")
    documents, notices = read_documents([again])
    assert [notice for notice in notices if notice.severity == "error"] == []
    assert documents[0].record == record
    assert canonical(record) == again.read_text(encoding="utf-8")


def test_one_set_is_a_list_and_a_choice_is_a_list_of_lists() -> None:
    text = canonical(LIBRARY.assemblies["wall-hung-combination-heater"])
    assert 'behind = [\n    "casing",\n]' in text


@pytest.mark.parametrize("name", sorted(LIBRARY.assemblies))
def test_a_new_job_needs_only_one_task_to_be_uncommented(name: str, firm: Path) -> None:
    lines = new_job(LIBRARY.assemblies[name], "N-1", 'a "new" job', LIBRARY.emergencies.values()).split("\n")
    start = lines.index("# [[task]]")
    lines[start : start + 3] = [line.removeprefix("# ") for line in lines[start : start + 3]]
    path = firm / "job.toml"
    path.write_text("\n".join(lines), encoding="utf-8")
    visit, notices = read_visit(path)
    assert visit is not None, notices
    assert visit.job.job.title == 'a "new" job' and len(visit.job.task) == 1


def test_a_new_job_holds_every_question_that_a_caller_is_asked() -> None:
    lines = new_job(LIBRARY.assemblies["circulator-set"], "N-1", "no flow", LIBRARY.emergencies.values()).split("\n")
    for name, row in LIBRARY.emergencies.items():
        assert lines[lines.index(f'# {name} = ""') - 1] == f"# {row.question}"
