"""What steps consist of."""

from dataclasses import replace

import pytest
from tests.examples import NAMES, example

from splitpin.timing import elements_of
from splitpin.timing.course import course_of


@pytest.mark.parametrize("name", NAMES)
def test_the_elements_of_a_step_add_up_to_its_seconds(name: str) -> None:
    plan, visit = example(name)
    found = dict.fromkeys((step.n for step in plan.steps), 0.0)
    for element in elements_of(course_of(plan, visit)):
        assert element.seconds > 0
        found[element.step] += element.seconds
    assert found == {step.n: step.seconds for step in plan.steps}


def test_four_socket_screws_take_four_times_the_row_of_their_head() -> None:
    plan, visit = example("heater-pump")
    step = next(step for step in plan.steps if step.text.startswith("Undo 4 hexagon socket screws M6 × 20"))
    off, *rest = (e for e in elements_of(course_of(plan, visit)) if e.step == step.n and e.kind == "off")
    assert not rest
    # the row "hex-socket" of catalog/standards/times.csv: 11 s off, log-spread 0.35
    assert (off.what, off.seconds, off.log_sd) == (step.joint, 44, 0.35)


def test_a_plan_of_another_visit_is_refused() -> None:
    plan, _ = example("heater-pump")
    _, other = example("heater-fan")
    with pytest.raises(ValueError, match="was not made from this visit"):
        course_of(plan, other)


def test_a_changed_second_is_refused() -> None:
    plan, visit = example("heater-fan")
    step = plan.steps[5]
    changed = (*plan.steps[:5], replace(step, seconds=step.seconds + 1), *plan.steps[6:])
    with pytest.raises(ValueError, match="was not made from this visit"):
        course_of(replace(plan, steps=changed), visit)
