"""What steps consist of."""

import pytest
from tests.examples import NAMES, course, example

from splitpin.timing import Element
from splitpin.timing.elements import elements_of_act


def elements_of(name: str) -> list[Element]:
    """The elements of every act of an example."""
    found = course(name)
    return [element for done in found.done for element in elements_of_act(done, found)]


@pytest.mark.parametrize("name", NAMES)
def test_the_elements_of_a_step_add_up_to_its_seconds(name: str) -> None:
    plan, _ = example(name)
    found = dict.fromkeys((step.n for step in plan.steps), 0.0)
    for element in elements_of(name):
        assert element.seconds > 0
        found[element.step] += element.seconds
    assert found == {step.n: step.seconds for step in plan.steps}


def test_four_socket_screws_take_four_times_the_row_of_their_head() -> None:
    plan, _ = example("heater-pump")
    step = next(step for step in plan.steps if step.text.startswith("Undo 4 hexagon socket screws M6 × 20"))
    off, *rest = (e for e in elements_of("heater-pump") if e.step == step.n and e.kind == "off")
    assert not rest
    # the row "hex-socket" of catalog/standards/times.csv: 11 s off, log-spread 0.35
    assert (off.what, off.seconds, off.log_sd) == (step.joint, 44, 0.35)
