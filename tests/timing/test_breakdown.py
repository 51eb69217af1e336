"""Where the time goes: every table adds up, and the causes are the ones an engineer would name."""

import re

import pytest
from tests.examples import NAMES, course, example, example_job

from splitpin.planning import plan_visit
from splitpin.timing.breakdown import Breakdown, breakdown
from splitpin.timing.estimate import Estimate, estimate


def of(name: str) -> tuple[Estimate, Breakdown]:
    found = estimate(example_job(name))
    return found, breakdown(course(name), found)


@pytest.mark.parametrize("name", NAMES)
def test_phases_kinds_and_causes_each_add_up_to_hands_on_time(name: str) -> None:
    found, where = of(name)
    rest = where.site_s + where.events_s
    assert sum(where.phases.values()) + rest == pytest.approx(found.hands_on.mean)
    assert sum(where.kinds.values()) + rest == pytest.approx(found.hands_on.mean)
    assert sum(row.hands_on_s for row in where.causes) + where.events_s == pytest.approx(found.hands_on.mean)


@pytest.mark.parametrize("name", NAMES)
def test_idle_time_of_the_causes_is_the_plans(name: str) -> None:
    plan, _ = example(name)
    _, where = of(name)
    last = plan.steps[-1]
    after = plan.times.elapsed_s - last.start_s - last.seconds
    assert sum(row.idle_s for row in where.causes) + after == pytest.approx(plan.times.waiting_s)


@pytest.mark.parametrize("name", NAMES)
def test_every_step_has_a_cause(name: str) -> None:
    plan, _ = example(name)
    _, where = of(name)
    assert {n for row in where.causes for n in row.steps} - {0} == {step.n for step in plan.steps}


def test_the_rear_vessel_takes_long_for_what_hangs_in_front_of_it() -> None:
    _, where = of("heater-rear-vessel")
    by_id = {row.cause.id: row for row in where.causes}
    assert by_id["lift:flue-elbow"].cause.text == "the flue elbow is in the way of the expansion vessel"
    assert by_id["lift:flue-elbow"].hands_on_s > 15 * 60  # the flue's proofs hang from it, not from the vessel
    assert re.search(r"\(catalog/.*\.toml:\d+\)$", by_id["lift:flue-elbow"].cause.because)


def test_screws_of_a_cover_are_blamed_on_the_cover() -> None:
    plan, _ = example("heater-pump")
    _, where = of("heater-pump")
    casing = next(row for row in where.causes if row.cause.id == "lift:casing")
    screws = [step.n for step in plan.steps if step.joint == "casing-screws"]
    assert screws
    assert set(screws) <= set(casing.steps)


def test_a_loft_costs_its_minutes_once() -> None:
    _, visit = example("heater-fan")
    head = visit.job.job.model_copy(update={"site_factors": ("loft",)})
    changed = type(visit)(visit.job.model_copy(update={"job": head}), visit.firm, visit.library, visit.place)
    planned = plan_visit(changed)
    assert planned.course is not None
    where = breakdown(planned.course, estimate(planned))
    assert where.site_s == pytest.approx((4 + 4 * 6 + 12) / 6 * 60 * 1.15)
    assert where.kinds["move"] == pytest.approx(1.5 * of("heater-fan")[1].kinds["move"])
