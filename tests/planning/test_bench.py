"""What is taken off its carrier at the bench was held there until then: nothing travels loose.

Common practice, no source.
"""

import pytest
from tests.bundled import LIBRARY

from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit

FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
        "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
    }
)


def visit(assembly: str, **more: object) -> Visit:
    head = {"reference": "T", "title": "-", "assembly": assembly, "people": 2}
    task = more.pop("task", [])
    return Visit(JobFile.model_validate({"format": 1, "job": {**head, **more}, "task": task}), FIRM, LIBRARY)


JOBS = {
    "shaft with two bearings": visit("roof-extract-fan", task=[{"do": "replace", "component": "shaft"}]),
    "motor with its wheel": visit("floor-standing-boiler", task=[{"do": "replace", "component": "fan-motor"}]),
    "door with its electrodes": visit("wall-hung-system-heater", template=["strip-and-clean"]),
}


@pytest.mark.parametrize("job", JOBS)
def test_what_leaves_at_the_bench_is_undone_there(job: str) -> None:
    asked = JOBS[job]
    plan = plan_visit(asked).plan
    rows = {row.id: row for row in asked.assembly.component}
    leaving = [step.component for step in plan.steps if step.action == "take" and step.position == "bench"]
    assert leaving  # else nothing is shown
    for name in leaving:
        assert name is not None
        carrier = rows[name].carried_by
        holding = [joint.id for joint in asked.assembly.joint if set(joint.between) == {name, carrier}]
        undone = {step.position for step in plan.steps if step.action == "undo" and step.joint in holding}
        assert undone <= {"bench"}
    assert check_plan(plan, asked) == ()
