"""Steps as the French repairability index counts them, on lines worked by hand."""

from typing import Any

from tests.examples import example

from splitpin.records.plan import Step
from splitpin.timing.depth import counted_steps, moved_first, steps_to_reach


def line(action: Any, *tools: str) -> Step:
    return Step(n=1, phase="strip", action=action, text="Do it.", tools=tools, seconds=10, start_s=0)


def test_nothing_taken_apart_is_no_step() -> None:
    assert counted_steps([]) == 0


def test_two_screws_and_a_cover_are_one_step() -> None:
    assert counted_steps([line("undo", "driver"), line("take")]) == 1


def test_another_tool_ends_a_step() -> None:
    cover = [line("undo", "driver"), line("take")]
    assert counted_steps([*cover, line("undo", "spanner"), line("undo", "key"), line("take")]) == 3


def test_taking_up_a_tool_ends_none() -> None:
    assert counted_steps([line("undo"), line("undo", "driver"), line("take")]) == 1
    assert counted_steps([line("take"), line("undo", "driver"), line("take")]) == 2


def test_the_same_tool_again_ends_none() -> None:
    assert counted_steps([line("undo", "driver"), line("undo"), line("undo", "driver"), line("take")]) == 1


def test_joints_undone_and_nothing_taken_are_a_step() -> None:
    assert counted_steps([line("undo", "driver")]) == 1


def test_unplugging_counts() -> None:
    plan, visit = example("heater-pump")
    strip = [step for step in plan.steps if step.phase == "strip"]
    assert "electrically-dead" in {condition.id for condition in plan.conditions}
    assert steps_to_reach(plan, visit.assembly) == counted_steps(strip) + 1


def test_what_moves_before_the_pump() -> None:
    plan, _ = example("heater-pump")
    assert moved_first(plan, "pump-head") == len(plan.opened.components) - 1
