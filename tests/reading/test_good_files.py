"""Sound files become records that know where they stand."""

from pathlib import Path

import pytest

from splitpin.notices import Place
from splitpin.reading.folders import data_folders
from splitpin.reading.library import read_library
from splitpin.reading.visit import read_visit

JOB = Path("firm", "jobs", "replace-pump.toml")


def test_the_library_holds_every_row_by_id_and_nothing_is_said(small: Path) -> None:
    library, notices = read_library()
    assert notices == ()
    assert list(library.assemblies) == ["pump-unit"]
    assert list(library.tools) == ["screwdriver-4", "screwdriver-6-5", "spanner"]
    assert list(library.conditions) == ["cool", "dead", "drained", "system-drained"]
    assert list(library.limits) == ["here"]
    assert [row.up_to_kg for row in library.handling] == [25]


def test_every_record_knows_its_place(small: Path) -> None:
    library, _ = read_library()
    unit = library.assemblies["pump-unit"]
    path = "catalog/assemblies/pump-unit.toml"
    assert unit.assembly.place == Place(path, 3, 1, 10)
    assert unit.circuit[0].place == Place(path, 8, 1, 11)
    assert unit.circuit[0].isolate[1].place == Place(
        path, 13, 5, len('{ by = "system-drain", makes = "system-drained" }')
    )
    assert unit.component[1].place == Place(path, 30, 1, 13)
    assert unit.component[1].work["inspect"].place == Place(path, 40, 1, 24)
    assert unit.component[1].work["inspect"].min.place == Place(path, 42, 7, 31)
    assert unit.symptom[0].suspects[0].check.place == Place(path, 65, 79, 30)


def test_a_visit_holds_the_job_its_firm_and_its_assembly(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(small)
    visit, notices = read_visit(JOB)
    assert notices == ()
    assert visit is not None
    assert visit.assembly.assembly.title == "pump unit"
    assert visit.firm.times.move_s == 15
    assert visit.job.task[0].place == Place("firm/jobs/replace-pump.toml", 8, 1, 8)
    assert visit.firm.place.path == "firm/firm.toml"


def test_places_are_the_same_wherever_the_bundled_data_lie(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    places = set()
    for folder in (small, small / "firm", small / "catalog", Path("/")):
        monkeypatch.chdir(folder)
        library, _ = read_library()
        places.add(library.assemblies["pump-unit"].place.path)
    assert places == {"catalog/assemblies/pump-unit.toml"}


def test_only_the_wanted_assembly_is_read(small: Path) -> None:
    assert list(read_library(assemblies={"pump-unit"})[0].assemblies) == ["pump-unit"]
    assert list(read_library(assemblies={"other-unit"})[0].assemblies) == []
    assert list(read_library(assemblies=())[0].assemblies) == []


def test_the_bundled_folders_are_there_in_a_checkout(root: Path) -> None:
    assert data_folders() == (root / "catalog", root / "procedures")
