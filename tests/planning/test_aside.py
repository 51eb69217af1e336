"""A part that may be moved aside or lifted right out goes no further than the task asks."""

from dataclasses import replace

import pytest
from tests.planning.test_every_task import LIBRARY, visit_for

from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.records.assembly import Component
from splitpin.records.library import Library
from splitpin.records.plan import Plan

FAN = "roof-extract-fan"


def with_the_cowl_as_guard() -> Library:
    """The roof fan, but that lifting its cowl (aside: four screws; out: two hinges more) bares the running wheel."""
    guards = {"cowl": ("roof", "driven-parts"), "shutter": ()}

    def changed(component: Component) -> Component:
        found = guards.get(component.id, component.guards)
        return component.model_copy(update={"guards": found})

    fan = LIBRARY.assemblies[FAN]
    parts = tuple(changed(component) for component in fan.component)
    return replace(LIBRARY, assemblies={**LIBRARY.assemblies, FAN: fan.model_copy(update={"component": parts})})


def planned(task: dict[str, str]) -> Plan:
    visit = visit_for(FAN, task, with_the_cowl_as_guard())
    plan = plan_visit(visit).plan
    assert plan.status == "proved" and check_plan(plan, visit) == ()
    return plan


@pytest.mark.parametrize(("do", "component", "ends"), [("clean", "shutter", "aside"), ("replace", "cowl", "out")])
def test_the_cowl_is_tilted_back_unless_it_is_to_come_off(do: str, component: str, ends: str) -> None:
    """Off its hinges it would end 22 s sooner: its screws could then be undone while the fan runs down."""
    plan = planned({"do": do, "component": component})
    assert {opened.id: opened.ends for opened in plan.opened.components}["cowl"] == ends
    assert ("cowl-hinges" in plan.opened.joints) == (ends == "out")
