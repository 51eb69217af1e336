"""What is kept of a visit, and against what it is held. The examples are visits to jobs of the examples."""

from pathlib import Path

import pytest
from tests.history.made import visit as made

from splitpin.history import PastVisit, past_visit
from splitpin.planning import plan_visit
from splitpin.reading.actual import disagreements, read_actual
from splitpin.reading.visit import read_visit
from splitpin.records.actual import Actual
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

FIRM = Path(__file__).resolve().parents[2] / "examples" / "skerrowdale"
JOB = FIRM / "jobs" / "circulator-head-drain-down.toml"
SAME_DAY = {
    "heater-fan-2026-11-10.toml": "heater-fan.toml",
    "circulator-head-2027-01-12.toml": "circulator-head-drain-down.toml",
    "vessel-membrane-2027-04-13.json": "vessel-membrane.toml",
}


@pytest.fixture(scope="module")
def planned() -> tuple[Visit, Plan]:
    visit, _ = read_visit(JOB)
    assert visit is not None
    return visit, plan_visit(visit).plan


def kept(planned: tuple[Visit, Plan], **said: object) -> PastVisit:
    visit, made_plan = planned
    head = {"format": 1, "job": visit.job.job.reference, "assembly": "circulator-set", "date": made().date}
    return past_visit(Actual.model_validate({**head, **said}), visit.job, made_plan, 6000.0, ())


def test_every_example_is_a_visit_to_its_job() -> None:
    assert {file.name for file in (FIRM / "records").iterdir() if file.suffix in (".toml", ".json")} == set(SAME_DAY)
    for name, job in SAME_DAY.items():
        actual, notices = read_actual(FIRM / "records" / name)
        visit, _ = read_visit(FIRM / "jobs" / job)
        assert actual is not None and visit is not None and notices == ()
        assert disagreements(actual, visit) == ()


def test_a_whole_visit_is_held_against_the_whole_plan(planned: tuple[Visit, Plan]) -> None:
    past = kept(planned, total_min=100, phases={"strip": 5})
    assert (past.planned_s, past.taken_s) == (6000, 6000)
    strip = sum(step.seconds for step in planned[1].steps if step.phase == "strip")
    assert past.phases == {"strip": (strip, 300)}


def test_a_visit_timed_in_part_is_held_against_that_part(planned: tuple[Visit, Plan]) -> None:
    steps = planned[1].steps
    every = {step.phase: 1.0 for step in steps}
    assert kept(planned, phases=every).planned_s == pytest.approx(6000)
    share = sum(step.seconds for step in steps if step.phase == "strip") / sum(step.seconds for step in steps)
    past = kept(planned, phases={"strip": 5})
    assert 0 < share < 0.5
    assert past.planned_s == pytest.approx(6000 * share) and past.taken_s == 300
