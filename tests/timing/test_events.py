"""What may go wrong, counted by hand."""

import pytest
from tests.examples import NAMES, course, example

from splitpin.planning import plan_visit
from splitpin.records.base import Spread
from splitpin.records.effort import Event
from splitpin.timing.events import Occasion, cases_of, cost_of, occasions_of
from splitpin.timing.moments import mixed, perhaps, total


def event(name: str, mode: float) -> Event:
    return Event(
        id=name,
        title=name,
        chance_clean=0.1,
        chance_weathered=0.1,
        chance_corroded=0.1,
        min=Spread(low=mode / 2, mode=mode, high=mode * 2),
        basis="from memory",
    )


SLOW, QUICK = event("slow", 20), event("quick", 5)


def test_a_certain_cost_is_the_three_point_mean() -> None:
    mean, log_sd = cost_of(SLOW)
    assert mean == pytest.approx((10 + 4 * 20 + 40) / 6 * 60)
    assert log_sd == pytest.approx(0.2278, abs=1e-4)  # sqrt(ln(1 + (5 / 21.67)^2))


def test_two_occasions_of_one_tenth() -> None:
    nothing, slow, quick, more = cases_of((Occasion(3, 0.1, SLOW), Occasion(7, 0.1, QUICK)))
    assert [nothing.chance, slow.chance, quick.chance, more.chance] == pytest.approx([0.81, 0.09, 0.09, 0.01])
    assert more.cost.mean == pytest.approx(slow.cost.mean + quick.cost.mean)


@pytest.mark.parametrize("name", NAMES)
def test_cases_sum_to_one_and_keep_mean_and_variance(name: str) -> None:
    occasions = occasions_of(course(name))
    cases = cases_of(occasions)
    assert sum(case.chance for case in cases) == pytest.approx(1)
    whole = total(perhaps(o.chance, o.cost) for o in occasions)
    assert mixed([(case.chance, case.cost) for case in cases]) == pytest.approx(whole, rel=1e-6)


def test_four_pieces_at_two_per_cent_on_corroded_plant() -> None:
    plan, visit = example("circulator-head-drain-down")
    found = {(o.step, o.event.id): o.chance for o in occasions_of(course("circulator-head-drain-down"))}
    step = next(s.n for s in plan.steps if s.joint == "motor-head-screws" and s.action == "undo")
    joint = next(j for j in visit.assembly.joint if j.id == "motor-head-screws")
    assert visit.job.job.plant == "corroded"
    assert joint.count == 4
    assert found[step, "fixing-seizes"] == pytest.approx(1 - 0.98**4)


def test_what_is_all_but_sure_still_has_cases() -> None:
    cases = cases_of((Occasion(3, 1 - 1e-9, SLOW), Occasion(7, 1 - 1e-9, QUICK), Occasion(8, 0.5, QUICK)))
    assert sum(case.chance for case in cases) == pytest.approx(1)
    assert cases[-1].name == "more"
    assert cases[-1].chance == pytest.approx(1, abs=1e-6)


def test_clean_plant_goes_wrong_less_often() -> None:
    _, visit = example("circulator-head-drain-down")

    def chances(state: str) -> float:
        head = visit.job.job.model_copy(update={"plant": state})
        job = visit.job.model_copy(update={"job": head})
        found = plan_visit(type(visit)(job, visit.firm, visit.library)).course
        assert found is not None
        return sum(o.chance for o in occasions_of(found))

    assert chances("clean") < chances("weathered") < chances("corroded")
