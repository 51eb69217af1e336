"""Who may do what: the licence with its person, its steps and its reasons; and what only its holder may open."""

import pytest
from tests.bundled import LIBRARY

from splitpin.planning import plan_visit
from splitpin.planning.asked.expand import offered
from splitpin.planning.check import check_plan
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import Licence, Plan
from splitpin.sheets.step_sheet.sheet import step_sheet
from splitpin.sheets.step_sheet.terminal import plan_text

FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
        "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
    }
)
CLOSED = [
    (assembly, component.id, task)
    for assembly, plant in LIBRARY.assemblies.items()
    for component in plant.component
    if component.closed_to is not None
    for task in offered(component)
]


def visit(assembly: str, *tasks: tuple[str, str]) -> Visit:
    head = {"reference": "T", "title": "-", "assembly": assembly, "people": 2}
    rows = [{"do": do, "component": component} for do, component in tasks]
    return Visit(JobFile.model_validate({"format": 1, "job": head, "task": rows}), FIRM, LIBRARY)


def planned(assembly: str, *tasks: tuple[str, str]) -> Plan:
    told = visit(assembly, *tasks)
    plan = plan_visit(told).plan
    assert check_plan(plan, told) == ()
    return plan


def licence(plan: Plan, name: str) -> Licence:
    return next(row for row in plan.licences if row.id == name)


# -- who may do what


def test_a_gas_valve_takes_a_gas_licence_for_the_steps_that_open_isolate_and_prove() -> None:
    plan = planned("wall-hung-combination-heater", ("replace", "gas-valve"))
    gas = licence(plan, "gas-work")
    assert gas.person == "a person registered or licensed for gas work"
    taking = {
        step.n
        for step in plan.steps
        if step.condition == "gas-isolated"
        or step.proof in ("gas-tightness", "gas-leak-detection", "gas-leak-detection-burner-lit", "gas-rate")
    }
    assert taking and taking <= set(gas.steps)
    numbers = {step.n: step for step in plan.steps}
    assert not any(numbers[n].condition == "electrically-dead" for n in gas.steps)
    assert [reason.rsplit(" (", 1)[0] for reason in gas.because][:1] == ["gas isolated at the appliance valve"]
    assert any(reason.startswith("fuel gas (catalog/media.toml:") for reason in gas.because)


def test_every_reason_names_its_place() -> None:
    for row in planned("wall-hung-combination-heater", ("replace", "gas-valve")).licences:
        assert row.because and all(".toml:" in reason for reason in row.because)
        assert list(row.steps) == sorted(set(row.steps))


def test_work_on_water_alone_takes_no_gas_licence() -> None:
    plan = planned("circulator-set", ("replace", "motor-head"))
    assert [row.id for row in plan.licences] == ["electrical-work"]


def test_an_unvented_store_takes_its_own_licence() -> None:
    plan = planned("unvented-hot-water-cylinder", ("replace", "anode"))
    assert licence(plan, "unvented-hot-water").person == "a person qualified for unvented hot-water systems"


def test_paper_and_terminal_say_who_may_do_which_steps() -> None:
    told = visit("wall-hung-combination-heater", ("replace", "gas-valve"))
    plan = plan_visit(told).plan
    text, page = " ".join(plan_text(plan).split()), step_sheet(plan, told.job, told.firm)
    assert "WHO MAY DO IT A person competent in electrical work: steps 1" in text
    assert "<h2>Who may do it</h2>" in page and "A person registered or licensed for gas work" in page


# -- what is closed


def test_the_sealed_circuit_is_closed_to_all_but_the_certified() -> None:
    assert {assembly for assembly, *_ in CLOSED} == {"monobloc-heat-pump"}
    assert len({component for _, component, _ in CLOSED}) >= 4


@pytest.mark.parametrize(("assembly", "component", "task"), CLOSED)
def test_a_task_on_what_is_closed_is_refused_with_the_person_who_may(assembly: str, component: str, task: str) -> None:
    plan = planned(assembly, (task, component))
    assert (plan.status, plan.steps) == ("impossible", ())
    (refusal,) = plan.refused
    assert refusal.reason == "only a person certified for refrigerant circuits may open it"
    (notice,) = [notice for notice in plan.notices if notice.code == "closed-to"]
    assert notice.severity == "error" and notice.hint


def test_the_rest_of_the_job_is_planned_and_the_sheet_says_what_is_left_out() -> None:
    told = visit("monobloc-heat-pump", ("replace", "compressor"), ("replace", "fan-motor"))
    plan = plan_visit(told).plan
    assert plan.status == "impossible" and plan.steps
    assert [refusal.task for refusal in plan.refused] == ["replace the compressor"]
    taken = {step.component for step in plan.steps if step.action in ("take", "work", "fit")}
    closed = {component for _, component, _ in CLOSED}
    assert taken and not taken & closed
    page = step_sheet(plan, told.job, told.firm)
    assert "Not to be done on this visit" in page
    assert "only a person certified for refrigerant circuits may open it" in page


@pytest.mark.parametrize("name", sorted(LIBRARY.assemblies))
def test_no_licence_stands_on_a_plan_without_a_step_that_takes_it(name: str) -> None:
    plant = LIBRARY.assemblies[name]
    component = next(row for row in plant.component if row.closed_to is None and offered(row))
    for row in planned(name, (offered(component)[0], component.id)).licences:
        assert row.steps
