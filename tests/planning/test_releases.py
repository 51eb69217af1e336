"""Releases run backwards through the makings, and what a guard asks for holds before its first fixing is undone."""

from dataclasses import replace

import pytest
from tests.examples import example_job

from splitpin.planning import plan_visit
from splitpin.records.library import Visit
from splitpin.records.plan import Plan


def changed(visit: Visit, condition: str, **update: object) -> Visit:
    row = visit.library.conditions[condition].model_copy(update=update)
    return replace(visit, library=replace(visit.library, conditions={**visit.library.conditions, condition: row}))


def released(plan: Plan) -> list[str]:
    """The conditions in the order of their releases."""
    return list(dict.fromkeys(step.condition or "" for step in plan.steps if step.action == "release"))


@pytest.mark.parametrize("name", ["heater-pump", "circulator-complete", "heater-annual-service"])
def test_what_was_made_first_is_released_last_though_no_row_says_so(name: str) -> None:
    visit = example_job(name).visit
    told, untold = plan_visit(visit).plan, plan_visit(changed(visit, "electrically-dead", release_after=())).plan
    assert len(released(told)) > 1
    assert released(untold)[-1] == released(told)[-1] == "electrically-dead"


def test_a_row_may_say_otherwise() -> None:
    visit = example_job("circulator-complete").visit
    first, last = released(plan_visit(visit).plan)
    other = changed(changed(visit, last, release_after=()), first, release_after=(last,))
    assert released(plan_visit(other).plan) == [last, first]


def test_a_guard_holds_before_the_first_of_several_fixings() -> None:
    visit = example_job("ventilation-fan-and-filters").visit
    assembly = visit.assembly
    cover = next(row.id for row in assembly.component if row.title == "front door")
    door = next(joint for joint in assembly.joint if cover in joint.between)
    more = door.model_copy(update={"id": "door-screws", "hardware": "ISO 7049 - ST3.5 x 13 - C - Z", "title": None})
    twice = assembly.model_copy(update={"joint": (*assembly.joint, more)})
    library = replace(visit.library, assemblies={**visit.library.assemblies, assembly.assembly.id: twice})
    plan = plan_visit(replace(visit, library=library)).plan
    fixings = [step.n for step in plan.steps if step.action == "undo" and step.joint in (door.id, more.id)]
    still = [step.n for step in plan.steps if step.action == "make" and step.condition == "fan-run-down"]
    assert len(fixings) == 2 and max(still) < min(fixings)
