"""What is proved under pressure waits until the plant is charged again, whatever took the charge off."""

from dataclasses import replace

import pytest
from tests.planning.test_every_task import LIBRARY, visit_for

from splitpin.planning import plan_visit
from splitpin.planning.asked.expand import expand
from splitpin.planning.best.choose import Choice, choose
from splitpin.planning.check import check_plan
from splitpin.planning.opening.needs import open_graph
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Programme
from splitpin.records.library import Library
from splitpin.records.plan import Plan

SET = "pressurisation-set"


def with_the_air_gap_proved_on_the_filled_tank() -> Library:
    """The set, but that the air gap, which cleaning the emptied tank brings, asks for no more than a full tank."""
    air_gap = LIBRARY.proofs["air-gap"].model_copy(update={"plant": "charged", "held": ()})
    return replace(LIBRARY, proofs={**LIBRARY.proofs, "air-gap": air_gap})


def steps(plan: Plan, **fields: str) -> list[int]:
    return [step.n for step in plan.steps if all(getattr(step, key) == value for key, value in fields.items())]


def test_the_tank_is_filled_before_the_air_gap_that_cleaning_it_brings_is_proved() -> None:
    visit = visit_for(SET, {"do": "clean", "component": "break-tank"}, with_the_air_gap_proved_on_the_filled_tank())
    plan = plan_visit(visit).plan
    filled, measured = steps(plan, condition="make-up-shut-off", action="release"), steps(plan, proof="air-gap")
    assert filled and measured and max(filled) < min(measured)
    assert check_plan(plan, visit) == ()


def test_the_check_refuses_an_air_gap_measured_over_the_empty_tank() -> None:
    visit = visit_for(SET, {"do": "clean", "component": "break-tank"}, with_the_air_gap_proved_on_the_filled_tank())
    plan = plan_visit(visit).plan
    measured = [step for step in plan.steps if step.proof == "air-gap"]
    rest = [step for step in plan.steps if step.proof != "air-gap"]
    first = next(at for at, step in enumerate(rest) if step.action == "release" and step.condition)
    moved = [*rest[:first], *measured, *rest[first:]]
    early = replace(plan, steps=tuple(replace(step, n=n) for n, step in enumerate(moved, start=1)))
    faults = {fault.rule for fault in check_plan(early, visit)}
    assert "proof-plant" in faults


def test_the_tank_is_filled_after_its_outlet_is_made_again_whatever_else_gives_way(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Emptying has no release of its own: the stop valve, closed before it, lets the water in again."""
    monkeypatch.setattr(Programme, "prefer", lambda self, earlier, later: False)
    visit = visit_for(SET, {"do": "replace", "component": "break-tank"})
    plant, wanted = Plant(visit), expand(visit).wanted
    choice = choose(open_graph(plant, wanted), plant, wanted)
    assert isinstance(choice, Choice)
    refit = choice.candidate.refit
    outlet = next(doing for doing in refit.back if doing.name == "tank-outlet")
    assert refit.programme.precedes(refit.back[outlet], refit.releases["make-up-shut-off"].first)
