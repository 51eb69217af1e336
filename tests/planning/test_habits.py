"""Every habit narrows what is planned, each by its name; without it the rule is gone."""

from dataclasses import replace
from typing import get_args

import pytest
from tests.examples import example_job

from splitpin.planning.asked.expand import expand
from splitpin.planning.best.choose import Candidate, Choice, candidate_of, choose
from splitpin.planning.opening.needs import open_graph
from splitpin.planning.plan import plan_visit
from splitpin.planning.plant.doings import Lift
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme import habits
from splitpin.planning.programme.acts import Act, Programme
from splitpin.planning.programme.habits import ALL, USUAL, Habit, Habits, in_force
from splitpin.records.firm import FirmHabits
from splitpin.records.library import Visit
from splitpin.records.words import HabitId

SAFETY = {"safe-first", "running-last", "covers-wait"}
FELT_IN = {  # an example whose programmes have the rule
    "work-when-open": "heater-annual-service",
    "ranks": "heater-fan",
    "alike": "heater-main-board",
    "bearing-last": "circulator-complete",
    "safe-first": "boiler-lockout",
    "open-first": "heater-annual-service",
    "tasks-in-turn": "heater-annual-service",
    "covers-wait": "heater-trap-and-electrodes",
    "close-first": "heater-annual-service",
}


def candidate(name: str, kept: Habits) -> Candidate:
    return candidate_of_visit(example_job(name).visit, kept)


def candidate_of_visit(visit: Visit, kept: Habits) -> Candidate:
    plant, wanted = Plant(visit), expand(visit).wanted
    graph = open_graph(plant, wanted)
    choice = choose(graph, plant, wanted)
    assert isinstance(choice, Choice)
    return candidate_of(choice.candidate.opening, choice.candidate.doings, graph, plant, wanted, kept)


def rules(programme: Programme) -> set[tuple[str, str]]:
    """Every pair of acts of which one comes before the other, named by their first lines."""
    acts = programme.acts
    return {(named(a), named(b)) for a in acts for b in acts if a is not b and programme.precedes(a, b)}


def named(act: Act) -> str:
    return f"{act.phase} {act.lines[-1].text} {act.leg}"


@pytest.mark.parametrize("habit", [habit for habit in ALL if habit.id in FELT_IN], ids=lambda habit: habit.id)
def test_a_habit_adds_rules_that_are_gone_without_it(habit: Habit) -> None:
    kept, left_out = candidate(FELT_IN[habit.id], USUAL | {habit}), candidate(FELT_IN[habit.id], USUAL - {habit})
    found = [(kept.strip, left_out.strip), (kept.refit.programme, left_out.refit.programme)]
    assert any(rules(one) - rules(other) for one, other in found)


def test_what_sheds_dirt_is_worked_on_before_what_catches_it() -> None:
    visit = example_job("ventilation-service").visit
    rows = visit.assembly.component
    catcher = next(row for row in rows if row.id == "condensate-tray")
    shedder = next(row for row in rows if "clean" in row.work and row.id != catcher.id)
    changed = shedder.model_copy(update={"sheds_into": (catcher.id,)})
    assembly = visit.assembly.model_copy(
        update={"component": tuple(changed if row.id == changed.id else row for row in rows)}
    )
    library = replace(visit.library, assemblies={**visit.library.assemblies, visit.assembly.assembly.id: assembly})
    sheds = replace(visit, library=library)
    pair = work_of(sheds, USUAL, changed.id), work_of(sheds, USUAL, catcher.id)
    assert (pair[0][1], pair[1][1]) in rules(pair[0][0])
    left_out = USUAL - {habits.DIRT_FIRST}
    pair = work_of(sheds, left_out, changed.id), work_of(sheds, left_out, catcher.id)
    assert (pair[0][1], pair[1][1]) not in rules(pair[0][0])


def work_of(visit: Visit, kept: Habits, component: str) -> tuple[Programme, str]:
    """The first half, and the name of the work on a component in its rules."""
    strip = candidate_of_visit(visit, kept).strip
    act = next(act for act in strip.acts if act.phase == "work" and act.component == component)
    return strip, named(act)


def test_ids_are_those_that_files_know_and_those_of_safety_beside_them() -> None:
    assert {habit.id for habit in ALL} == {*get_args(HabitId)} | SAFETY
    assert [habit.id for habit in ALL if habit not in USUAL] == ["work-when-open"]
    assert all(habit.title.endswith(".") and habit.reason and habit.basis for habit in ALL)


def test_a_firm_keeps_the_usual_habits_unless_it_says_otherwise() -> None:
    firm = example_job("heater-fan").visit.firm
    assert in_force(firm) == USUAL
    both = firm.model_copy(update={"habits": FirmHabits(on=("work-when-open", "alike"), off=("alike",))})
    assert in_force(both) == (USUAL | {habits.WORK_WHEN_OPEN}) - {habits.ALIKE}


def test_a_plan_says_under_which_habits_it_is_best_and_is_longer_under_more() -> None:
    visit = example_job("heater-annual-service").visit
    usual = plan_visit(visit).plan
    firm = visit.firm.model_copy(update={"habits": FirmHabits(on=("work-when-open",))})
    more = plan_visit(replace(visit, firm=firm)).plan
    assert "work-when-open" not in usual.habits and "work-when-open" in more.habits
    assert more.times.elapsed_s > usual.times.elapsed_s and more.status == usual.status == "proved"


def test_the_bearing_joint_is_a_matter_of_the_habit() -> None:
    lifts = [doing for doing in candidate("circulator-complete", USUAL).doings if isinstance(doing, Lift)]
    kept = candidate("circulator-complete", USUAL).strip.acts
    left_out = candidate("circulator-complete", USUAL - {habits.BEARING_LAST}).strip.acts
    assert lifts and len(left_out) > len(kept)


@pytest.mark.parametrize("name", get_args(HabitId))
def test_the_check_accepts_what_a_firm_without_a_habit_plans(name: HabitId) -> None:
    visit = example_job("heater-fan").visit
    firm = visit.firm.model_copy(update={"habits": FirmHabits(off=(name,))})
    plan = plan_visit(replace(visit, firm=firm)).plan
    assert plan.steps and name not in plan.habits
