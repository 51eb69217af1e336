"""The figures of an assembly, against its file and against each other."""

from dataclasses import replace

import pytest

from splitpin.hardware.fixing import Fixing
from splitpin.hardware.resolving import resolve
from splitpin.reading.library import read_library
from splitpin.records.assembly import Assembly
from splitpin.records.library import Library
from splitpin.sheets.office.maintainability_text import maintainability_text
from splitpin.timing.maintainability import Maintainability, maintainability

NAMES = ("circulator-set", "pressurisation-set", "monobloc-heat-pump", "heat-recovery-unit")


@pytest.fixture(scope="module")
def library() -> Library:
    found, _ = read_library()
    return found


@pytest.fixture(scope="module", params=NAMES)
def figures(request: pytest.FixtureRequest, library: Library) -> Maintainability:
    return maintainability(request.param, library)


def test_shares_of_the_repairs_sum_to_one(figures: Maintainability) -> None:
    assert sum(row.share for row in figures.repairs) == pytest.approx(1, abs=1e-3)
    able = sum(row.share for row in figures.repairs if row.refused is None)
    assert figures.planned_share == pytest.approx(able, abs=1e-3)


def test_the_mean_is_the_repairs_weighted(figures: Maintainability) -> None:
    able = [row for row in figures.repairs if row.refused is None]
    mean = sum(row.share * row.elapsed_s for row in able) / sum(row.share for row in able)
    assert figures.mean_repair_s == pytest.approx(mean, rel=2e-3)


def test_more_repairs_are_done_in_more_time(figures: Maintainability) -> None:
    assert figures.median_repair_s is not None
    assert figures.within_90_s is not None
    assert figures.within_95_s is not None
    assert 0 < figures.median_repair_s < figures.within_90_s < figures.within_95_s


def test_joints_are_counted_by_the_rule_of_their_pieces(figures: Maintainability, library: Library) -> None:
    assembly = library.assemblies[figures.assembly]
    for row in figures.joints:
        own = [joint for joint in assembly.joint if _reuse(joint.hardware, library) == row.reuse]
        assert (row.joints, row.pieces) == (len(own), sum(joint.count for joint in own))
    assert sum(row.share for row in figures.joints) == pytest.approx(1, abs=1e-3)


def changed(library: Library, assembly: Assembly) -> Library:
    return replace(library, assemblies={**library.assemblies, assembly.assembly.id: assembly})


def _reuse(hardware: str, library: Library) -> str:
    fixing = resolve(hardware, library)
    assert isinstance(fixing, Fixing)
    return fixing.reuse


def test_the_text_fits_a_terminal(figures: Maintainability) -> None:
    text = maintainability_text(figures)
    assert all(len(line) <= 80 and line == line.rstrip() for line in text.splitlines())
    assert "Mean repair time" in text
    assert "None" not in text


def test_what_is_closed_is_named_and_not_counted(library: Library) -> None:
    assembly = library.assemblies["monobloc-heat-pump"]
    closed = {component.id for component in assembly.component if component.closed_to}
    figures = maintainability("monobloc-heat-pump", library)
    refused = [row for row in figures.repairs if row.refused]
    assert refused
    assert {row.component for row in refused} <= closed
    assert all("may open it" in str(row.refused) for row in refused)
    assert figures.planned_share < 1
    assert "of repairs that one may do" in " ".join(maintainability_text(figures).split())


def test_without_symptoms_every_part_counts_alike(library: Library) -> None:
    assembly = library.assemblies["circulator-set"].model_copy(update={"symptom": ()})
    figures = maintainability("circulator-set", changed(library, assembly))
    assert not figures.by_symptoms
    assert len({row.share for row in figures.repairs}) == 1
    assert {row.task for row in figures.repairs} == {"replace"}


def test_an_assembly_that_nobody_repairs_has_no_times(library: Library) -> None:
    assembly = library.assemblies["circulator-set"]
    bare = tuple(c.model_copy(update={"part": None, "part_includes": (), "work": {}}) for c in assembly.component)
    none = assembly.model_copy(update={"symptom": (), "component": bare})
    figures = maintainability("circulator-set", changed(library, none))
    assert figures.repairs == ()
    assert figures.mean_repair_s is None
    assert "No repair of it can be planned" in maintainability_text(figures)
