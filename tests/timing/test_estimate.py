"""The estimate of a visit, against the plan and against itself."""

import pytest
from tests.examples import NAMES, course, example, example_job

from splitpin.planning import plan_visit
from splitpin.timing import Pace, estimate
from splitpin.timing.elapsed import Leg, legs_of, on_site
from splitpin.timing.replanning import with_tasks
from splitpin.timing.site import Site


@pytest.mark.parametrize("name", NAMES)
def test_where_nothing_varies_the_schedule_is_the_plans_own(name: str) -> None:
    plan, _ = example(name)
    legs = [
        Leg([element._replace(log_sd=0.0) for element in leg.elements], [], leg.awaits, leg.starts, leg.wait_s)
        for leg in legs_of(course(name), Site(()), ())
    ]
    elapsed, idle = on_site(legs, Pace(0.0, 0.0), 1.0, 0.0)
    for value in (elapsed.values[0], elapsed.values[-1]):
        assert value == pytest.approx(plan.times.elapsed_s)
    for value in (idle.values[0], idle.values[-1]):
        assert value == pytest.approx(plan.times.waiting_s)


@pytest.mark.parametrize("name", NAMES)
def test_elements_allowance_site_and_events_make_the_planned_mean(name: str) -> None:
    plan, found = example(name)[0], estimate(example_job(name))
    work = sum(element.seconds for element in found.elements) * found.allowance.factor
    assert found.planned_s == pytest.approx(work + sum(event.expected_s for event in found.events))
    assert work >= plan.times.hands_on_s * 1.15 - 1e-6
    assert found.hands_on.mean == pytest.approx(found.planned_s)  # the usual pace is 1 on average


@pytest.mark.parametrize("name", NAMES)
def test_percentiles_rise_and_match_the_chances(name: str) -> None:
    found = estimate(example_job(name))
    for spread in (found.hands_on, found.elapsed, found.person_hours):
        times = [spread.percentile(p) for p in (5, 50, 80, 90, 95, 99)]
        assert times == sorted(times)
        for p, time in zip((5, 50, 80, 90, 95, 99), times, strict=True):
            assert spread.chance_over(time) == pytest.approx(1 - p / 100, abs=1e-3)
        assert spread.expected_over(0.0) == pytest.approx(spread.mean)


@pytest.mark.parametrize("name", NAMES)
def test_hands_on_and_waiting_make_up_elapsed(name: str) -> None:
    found = estimate(example_job(name))
    assert found.elapsed.mean == pytest.approx(found.hands_on.mean + found.waiting.mean, rel=2e-3)
    assert found.person_hours.mean == pytest.approx(found.people * found.elapsed.mean)


def test_the_same_plan_gives_the_same_figures() -> None:
    first, again = estimate(example_job("heater-pump")), estimate(example_job("heater-pump"))
    assert first == again
    assert first.elapsed.percentile(80) == again.elapsed.percentile(80)


def test_a_learnt_pace_moves_hands_on_time_and_is_counted() -> None:
    planned = example_job("heater-main-board")
    usual, slow = estimate(planned), estimate(planned, Pace(0.3, 0.1, 12))
    assert slow.visits == 12
    assert slow.planned_s == pytest.approx(usual.planned_s)
    assert slow.hands_on.mean / usual.hands_on.mean == pytest.approx(2.718281828 ** (0.3 + 0.1**2 / 2))
    assert slow.hands_on.sd < usual.hands_on.sd * slow.hands_on.mean / usual.hands_on.mean


def test_a_plan_without_steps_takes_no_time() -> None:
    _, visit = example("heater-fan")
    none = plan_visit(with_tasks(visit, (), alone=True))
    assert none.plan.steps == ()
    found = estimate(none)
    assert [spread.mean for spread in (found.hands_on, found.waiting, found.elapsed, found.person_hours)] == [0] * 4
    assert found.elapsed.percentile(95) == 0
    assert found.events == ()


def test_a_firm_without_an_allowance_has_none() -> None:
    _, visit = example("heater-fan")
    times = visit.firm.times.model_copy(update={"allowance": 0.0})
    bare = type(visit)(visit.job, visit.firm.model_copy(update={"times": times}), visit.library, visit.place)
    assert estimate(plan_visit(bare)).planned_s == pytest.approx(estimate(example_job("heater-fan")).planned_s / 1.15)


def test_shift_time_allows_more_than_work_time() -> None:
    _, visit = example("heater-fan")
    times = visit.firm.times.model_copy(update={"allowance_basis": "shift-time"})
    shift = type(visit)(visit.job, visit.firm.model_copy(update={"times": times}), visit.library, visit.place)
    assert estimate(plan_visit(shift)).planned_s == pytest.approx(
        estimate(example_job("heater-fan")).planned_s / 1.15 / 0.85
    )
