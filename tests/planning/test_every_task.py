"""Every task and every seal of the catalogue, and every example job, replayed by the independent check."""

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from tests.bundled import LIBRARY, NOTICES
from tests.examples import JOBS, planned

from splitpin.notices import has_errors
from splitpin.planning import plan_visit
from splitpin.planning.asked.expand import offered
from splitpin.planning.check import check_plan
from splitpin.records.assembly import Assembly
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Library, Visit
from splitpin.records.plan import Plan, Step

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
        plan = plan_visit(visit, stop=within(2)).plan
        found = check_plan(plan, visit)
        if found or (plan.status == "impossible" and not plan.refused):
            faults[tuple(task.values())] = [str(fault) for fault in found] or [n.message for n in plan.notices]
    assert tasks and faults == {}


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_example_job_is_proved_and_accepted(path: Path) -> None:
    plan, visit = planned(path)
    assert check_plan(plan, visit) == ()
    assert plan.gap_s == 0 and (plan.status == "proved" or plan.refused)


def swapped(plan: Plan, at: int) -> Plan:
    """The plan with two neighbouring steps in each other's place and in each other's time."""
    steps = list(plan.steps)
    first, second = steps[at], steps[at + 1]
    steps[at] = replace(second, n=first.n, start_s=first.start_s)
    steps[at + 1] = replace(first, n=second.n, start_s=first.start_s + second.seconds)
    return replace(plan, steps=tuple(steps))


def depends(first: Step, second: Step, ends: dict[str, tuple[str, ...]]) -> bool:
    """Whether the second of two neighbours can only follow the first, whatever else the plan holds."""
    if (first.action, second.action) in (("undo", "take"), ("fit", "remake")):
        lifted, joint = (second.component, first.joint) if first.action == "undo" else (first.component, second.joint)
        return lifted in ends[joint or ""]  # what bears a part is undone before it, and made after it
    if (first.action, second.action) == ("seal", "remake"):
        return first.joint == second.joint
    if first.action == second.action in ("make", "release", "prove"):  # a procedure's own steps keep their order
        return (first.condition, first.proof) == (second.condition, second.proof) and first.text != second.text
    return second.action == "record" != first.action


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_neighbours_that_depend_on_each_other_cannot_change_places(path: Path) -> None:
    plan, visit = planned(path)
    ends = {joint.id: joint.between for joint in visit.assembly.joint}
    pairs = [at for at in range(len(plan.steps) - 1) if depends(plan.steps[at], plan.steps[at + 1], ends)]
    accepted = [plan.steps[at].text for at in pairs if not check_plan(swapped(plan, at), visit)]
    assert len(pairs) > len(plan.steps) // 4 and accepted == []


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_no_step_of_a_plan_can_be_left_out(path: Path) -> None:
    plan, visit = planned(path)
    seals = {joint.id: joint.seal for joint in visit.assembly.joint}
    words = {text for component in visit.assembly.component for work in component.work.values() for text in work.steps}
    for at, step in enumerate(plan.steps):
        rest = plan.steps[:at] + plan.steps[at + 1 :]
        shorter = tuple(replace(other, n=n) for n, other in enumerate(rest, start=1))
        seal = seals.get(step.joint or "") if step.action == "seal" else None
        looked_at = seal is not None and visit.library.seals[seal].policy == "inspect"
        if step.action == "record" or looked_at or (step.action == "work" and step.text not in words):
            continue  # what is written down, looked at or added to the files' words leaves nothing that could be missed
        assert rules(replace(plan, steps=shorter), visit) - {"clock"}, step.text


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_missing_seal_or_proof_is_named(path: Path) -> None:
    plan, visit = planned(path)
    for seal in [part for part in plan.parts if part.kind == "seal" and part.certain]:
        without = tuple(part for part in plan.parts if part != seal)
        assert "parts" in rules(replace(plan, parts=without), visit), seal.part
    for proof in plan.proofs:
        steps = tuple(step for step in plan.steps if step.proof != proof.id)
        rest = tuple(row for row in plan.proofs if row != proof)
        assert "proof-missing" in rules(replace(plan, steps=steps, proofs=rest), visit), proof.id


def rules(plan: Plan, visit: Visit) -> set[str]:
    """The rules that the plan breaks."""
    return {fault.rule for fault in check_plan(plan, visit)}


CARRIERS = [  # whose new part includes others
    (name, component.id)
    for name, assembly in sorted(LIBRARY.assemblies.items())
    for component in assembly.component
    if component.part_includes and "replace" in offered(component)
]


@pytest.mark.parametrize(("name", "carrier"), CARRIERS)
def test_an_open_proof_of_what_comes_with_a_new_part_waits_until_it_is_back(name: str, carrier: str) -> None:
    assembly = LIBRARY.assemblies[name]
    part = next(component.part_includes[0] for component in assembly.component if component.id == carrier)
    components = tuple(
        component.model_copy(update={"proves": (*component.proves, "belt-drive")})
        if component.id == part
        else component
        for component in assembly.component
    )
    changed = assembly.model_copy(update={"component": components})
    library = replace(LIBRARY, assemblies={**LIBRARY.assemblies, name: changed})
    visit = visit_for(name, {"do": "replace", "component": carrier}, library)
    plan = plan_visit(visit).plan
    assert check_plan(plan, visit) == ()
    fitted = next(step.n for step in plan.steps if (step.action, step.component) == ("fit", carrier))
    assert fitted < min(step.n for step in plan.steps if step.proof == "belt-drive")
