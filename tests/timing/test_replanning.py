"""Changes planned again: what they save, and what another task adds."""

import pytest
from tests.examples import example, example_job

from splitpin.planning import plan_visit
from splitpin.records.job import Task
from splitpin.timing.replanning import Patience, standard_seconds, with_tasks
from splitpin.timing.savings import savings
from splitpin.timing.while_there import additions


def test_patience_counts_questions() -> None:
    patience = Patience(2)
    assert [patience() for _ in range(4)] == [False, False, True, True]


def test_the_flue_elbow_costs_the_rear_vessel_most() -> None:
    planned = example_job("heater-rear-vessel")
    first, *others = savings(planned, {"flue-elbow": 1000.0, "casing": 900.0})
    assert (first.change, first.id) == ("out-of-the-way", "flue-elbow")
    assert len(others) <= 4
    assert all(0 < row.saves_s <= first.saves_s for row in others)


def test_a_joint_in_no_time_saves_at_least_its_own_pieces() -> None:
    rows = savings(example_job("heater-pump"), {"pump-head-screws": 1000.0}, most=99)
    row = next(row for row in rows if row.id == "pump-head-screws")
    assert row.change == "in-no-time"
    assert row.saves_s >= 4 * (11 + 14) * 1.15  # four hexagon socket screws, 11 s off and 14 s on


def test_another_task_adds_what_planning_both_takes_more() -> None:
    plan, visit = example("heater-fan")
    rows = {(row.component, row.task): row for row in additions(example_job("heater-fan"), questions=2_000)}
    electrode = rows["ignition-electrode", "replace"]
    task = Task(do=electrode.task, component=electrode.component)
    both = plan_visit(with_tasks(visit, (*visit.job.task, task))).plan
    alone = plan_visit(with_tasks(visit, (task,), alone=True)).plan
    assert electrode.proved
    expected = standard_seconds(both.times, visit) - standard_seconds(plan.times, visit)
    assert electrode.adds_s == pytest.approx(expected)
    assert electrode.alone_s == pytest.approx(standard_seconds(alone.times, visit))
    assert electrode.adds_s < electrode.alone_s / 4  # the casing is off anyway


def test_what_the_job_asks_for_is_no_addition() -> None:
    planned = example_job("circulator-complete")
    asked = {(task.component, task.do) for task in planned.visit.job.task}
    rows = additions(planned, questions=2_000)
    assert rows
    assert not {(row.component, row.task) for row in rows} & asked
