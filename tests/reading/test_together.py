"""Files taken together: a job with its firm, a firm with its own catalogue, files and folders that are named."""

import shutil
from pathlib import Path

import pytest
from tests.reading.conftest import SMALL

from splitpin.notices import Place, render
from splitpin.reading.check import check_paths
from splitpin.reading.folders import source_text
from splitpin.reading.library import read_library
from splitpin.reading.visit import read_visit

OWN_UNIT = """format = 1

[assembly]
id = "own-unit"
title = "own unit"
positions = ["front"]

[[component]]
id = "fan"
title = "fan"
role = "fan"
position = "front"
part = "own-fan"
"""
OWN_PART = 'format = 1\n\n[[part]]\nid = "own-fan"\ntitle = "fan of our own"\n'


@pytest.fixture
def firm(small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A firm's folder of its own, which is also the working folder."""
    shutil.copytree(SMALL / "firm", tmp_path / "firm")
    monkeypatch.chdir(tmp_path / "firm")
    return tmp_path / "firm"


def _job(assembly: str, component: str) -> str:
    text = (SMALL / "firm" / "jobs" / "replace-pump.toml").read_text("utf-8")
    return text.replace("pump-unit", assembly).replace('"pump"', f'"{component}"')


def test_a_catalogue_beside_the_firm_is_read_as_well(firm: Path) -> None:
    Path("catalog", "assemblies").mkdir(parents=True)
    unit = Path("catalog", "assemblies", "own-unit.toml")
    unit.write_text(OWN_UNIT + OWN_PART.removeprefix("format = 1\n"), encoding="utf-8")
    Path("job.toml").write_text(_job("own-unit", "fan"), encoding="utf-8")
    visit, notices = read_visit(Path("job.toml"))
    assert visit is None
    assert [notice.code for notice in notices] == ["file-kind"]  # the assembly may well be in that file
    unit.write_text(OWN_UNIT, encoding="utf-8")
    Path("catalog", "part.toml").write_text(OWN_PART, encoding="utf-8")
    visit, notices = read_visit(Path("job.toml"))
    assert notices == ()
    assert visit is not None
    assert visit.assembly.place == Place("catalog/assemblies/own-unit.toml", 1, 1)
    assert visit.library.parts["own-fan"].title == "fan of our own"
    assert list(read_library(extra=firm)[0].assemblies) == ["own-unit", "pump-unit"]
    assert {notice.code for notice in check_paths([Path(".")])} == {"not-said"}  # nothing wrong, and advice


def test_an_id_of_the_bundled_catalogue_cannot_be_declared_again(firm: Path) -> None:
    Path("catalog").mkdir()
    Path("catalog", "pump.toml").write_text(OWN_PART.replace("own-fan", "pump"), encoding="utf-8")
    visit, notices = read_visit(Path("jobs", "replace-pump.toml"))
    assert visit is None
    assert render(notices, source_text) == (
        'catalog/pump.toml:4:6: error[duplicate-id]: the part "pump" is declared twice\n'
        "  hint: it is first declared at catalog/rows.toml:62\n"
        '  id = "pump"\n'
        "       ^^^^^^\n"
    )


def test_a_job_without_a_firm_is_told(firm: Path) -> None:
    Path("firm.toml").unlink()
    expected = (
        "jobs/replace-pump.toml: error[file-missing]: there is no firm.toml in this job's folder or above it\n"
        "  hint: write one: [firm] with `id`, `title`, `jurisdiction`, and [times] with `pickup_s`, `move_s`\n"
    )
    visit, notices = read_visit(Path("jobs", "replace-pump.toml"))
    assert visit is None
    assert render(notices, source_text) == expected
    assert render(check_paths([Path("jobs")]), source_text) == expected


def test_a_file_that_is_no_job_is_not_planned(firm: Path) -> None:
    visit, notices = read_visit(Path("firm.toml"))
    assert visit is None
    assert [(notice.code, notice.message) for notice in notices] == [
        ("file-kind", "this file is no job: it has no [job]")
    ]


def test_a_job_that_is_not_there_is_told(firm: Path) -> None:
    visit, notices = read_visit(Path("jobs", "none.toml"))
    assert visit is None
    assert render(notices, source_text) == "jobs/none.toml: error[file-missing]: there is no such file\n"


def test_the_nearest_assembly_is_named_though_only_the_jobs_own_is_read(firm: Path) -> None:
    Path("job.toml").write_text(_job("pump-unti", "pump"), encoding="utf-8")
    visit, notices = read_visit(Path("job.toml"))
    assert visit is None
    assert [(notice.code, notice.hint) for notice in notices] == [
        ("assembly-missing", "did you mean `pump-unit`, declared at catalog/assemblies/pump-unit.toml:4?")
    ]


def test_an_assembly_is_found_by_the_name_of_its_file(firm: Path) -> None:
    Path("catalog", "assemblies").mkdir(parents=True)
    Path("catalog", "assemblies", "own-unit.toml").write_text(OWN_UNIT, encoding="utf-8")
    Path("catalog", "assemblies", "other-unit.toml").write_text("no TOML", encoding="utf-8")
    Path("catalog", "parts.toml").write_text(OWN_PART, encoding="utf-8")
    library, notices = read_library(assemblies={"own-unit"}, extra=firm)
    assert notices == ()
    assert list(library.assemblies) == ["own-unit"]


def test_a_file_is_named_as_the_user_gave_it(firm: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    Path("job.toml").write_text(_job("pump-unit", "pmp"), encoding="utf-8")

    def path_from(folder: Path, given: Path) -> str:
        monkeypatch.chdir(folder)
        return read_visit(given)[1][0].place.path

    assert path_from(firm, Path("job.toml")) == "job.toml"
    assert path_from(firm, Path("jobs", "..", "job.toml")) == "job.toml"
    assert path_from(firm, firm / "job.toml") == "job.toml"
    assert path_from(firm / "jobs", Path("..", "job.toml")) == "../job.toml"
    assert path_from(tmp_path, Path("firm", "job.toml")) == "firm/job.toml"
    assert path_from(SMALL, firm / "job.toml") == (firm / "job.toml").as_posix()


def test_with_no_paths_the_whole_catalogue_is_checked(
    firm: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert check_paths([]) == ()
    copy = tmp_path / "copy"
    shutil.copytree(SMALL, copy)
    rows = copy / "catalog" / "rows.toml"
    rows.write_text(rows.read_text("utf-8").replace('person = "an elec', 'persn = "an elec'), encoding="utf-8")
    monkeypatch.setattr("splitpin.reading.folders.data_top", lambda: copy)
    assert [(notice.code, notice.place.path) for notice in check_paths([])] == [("unknown-key", "catalog/rows.toml")]


def test_a_bundled_file_may_be_named_and_is_read_once(firm: Path) -> None:
    assert check_paths([SMALL / "catalog", SMALL / "catalog" / "rows.toml"]) == ()


def test_all_errors_of_all_files_are_given_at_once_in_order(firm: Path) -> None:
    Path("a.toml").write_text(_job("pump-unit", "pmp"), encoding="utf-8")
    Path("b.toml").write_text("format = 1\n[job\n", encoding="utf-8")
    Path("jobs", "c.toml").write_text(_job("pump-unit", "csing"), encoding="utf-8")
    paths = [Path("jobs"), Path("b.toml"), Path("a.toml"), Path("none.toml"), Path("b.toml")]
    found = [(notice.place.path, notice.code) for notice in check_paths(paths)]
    assert found == [
        ("a.toml", "unknown-id"),
        ("b.toml", "toml-syntax"),
        ("jobs/c.toml", "unknown-id"),
        ("none.toml", "file-missing"),
    ]
    assert check_paths(paths) == check_paths(list(reversed(paths)))


def test_the_bundled_data_and_the_examples_are_sound(root: Path) -> None:
    examples = [root / "examples"] if (root / "examples").is_dir() else []
    assert render(check_paths([]), source_text) == ""
    assert render(check_paths(examples), source_text) == ""
