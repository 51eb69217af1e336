"""Every task of every component and every seal of the catalogue, and every example job, replayed by the independent check."""

import random
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from splitpin.notices import has_errors
from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.planning.expand import offered
from splitpin.reading import read_library, read_visit
from splitpin.records.assembly import Assembly
from splitpin.records.job import FirmFile, JobFile
from splitpin.records.library import Library, Visit
from splitpin.records.plan import Plan

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
JOBS = sorted(EXAMPLES.glob("*/jobs/*.toml"))
LIBRARY, NOTICES = read_library()
FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
        "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
    }
)


def tasks_of(assembly: Assembly) -> Iterator[dict[str, str]]:
    for component in assembly.component:
        yield from ({"do": task, "component": component.id} for task in offered(component))
    yield from ({"do": "renew-seal", "joint": joint.id} for joint in assembly.joint if joint.seal)


def visit_for(assembly: str, task: dict[str, str], library: Library = LIBRARY) -> Visit:
    head = {"reference": "T", "title": "test", "assembly": assembly, "people": 2}
    return Visit(JobFile.model_validate({"format": 1, "job": head, "task": [task]}), FIRM, library)


def within(seconds: float) -> Callable[[], bool]:
    end = time.monotonic() + seconds
    return lambda: time.monotonic() > end


def test_the_catalogue_is_sound() -> None:
    assert not has_errors(NOTICES), NOTICES
    assert len(LIBRARY.assemblies) >= 4


@pytest.mark.parametrize("name", sorted(LIBRARY.assemblies))
def test_every_task_is_planned_and_accepted(name: str) -> None:
    faults, tasks = {}, list(tasks_of(LIBRARY.assemblies[name]))
    for task in tasks:
        visit = visit_for(name, task)
        plan = plan_visit(visit, stop=within(5))
        found = check_plan(plan, visit)
        if found or (plan.status == "impossible" and not plan.refused):
            faults[tuple(task.values())] = [str(fault) for fault in found] or [n.message for n in plan.notices]
    assert tasks and faults == {}


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_example_job_is_proved_and_accepted(path: Path) -> None:
    visit, notices = read_visit(path)
    assert visit is not None, notices
    plan = plan_visit(visit)
    assert check_plan(plan, visit) == ()
    assert plan.gap_s == 0 and (plan.status == "proved" or plan.refused)


def swapped(plan: Plan, at: int) -> Plan:
    """The plan with two neighbouring steps in each other's place and in each other's time."""
    steps = list(plan.steps)
    first, second = steps[at], steps[at + 1]
    steps[at] = second.model_copy(update={"n": first.n, "start_s": first.start_s})
    steps[at + 1] = first.model_copy(update={"n": second.n, "start_s": first.start_s + second.seconds})
    return plan.model_copy(update={"steps": tuple(steps)})


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_tampered_plans_are_rejected(path: Path) -> None:
    visit, _ = read_visit(path)
    assert visit is not None
    plan = plan_visit(visit)
    chance = random.Random(path.stem)
    ends = {joint.id: joint.between for joint in visit.assembly.joint}
    takes = [
        at
        for at, (step, after) in enumerate(zip(plan.steps, plan.steps[1:], strict=False))
        if step.action == "undo" and after.action == "take" and after.component in ends[step.joint or ""]
    ]
    for at in takes:  # a part is not taken before the joint that bears it is undone
        assert check_plan(swapped(plan, at), visit), plan.steps[at].text
    for seal in [part for part in plan.parts if part.kind == "seal" and part.certain]:
        without = tuple(part for part in plan.parts if part != seal)
        assert check_plan(plan.model_copy(update={"parts": without}), visit), seal.part
    for proof in plan.proofs:
        without_steps = tuple(step for step in plan.steps if step.proof != proof.id)
        rest = tuple(row for row in plan.proofs if row != proof)
        assert check_plan(plan.model_copy(update={"steps": without_steps, "proofs": rest}), visit), proof.id
    for _ in range(5):
        at = chance.randrange(len(plan.steps))
        without_one = plan.steps[:at] + plan.steps[at + 1 :]
        assert check_plan(plan.model_copy(update={"steps": without_one}), visit), plan.steps[at].text
    assert takes or not plan.opened.components
