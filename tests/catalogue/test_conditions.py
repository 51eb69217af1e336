"""Every way to make plant safe has its steps, waits and records, and plans of the catalogue make and release it.

What must be made safe, and how, is common practice; where a step is laid down, it names its source itself.
"""

import pytest
from tests.bundled import LIBRARY

from splitpin.planning import plan_visit
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
        "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
    }
)
HEATER, BOILER, CYLINDER = "wall-hung-combination-heater", "floor-standing-boiler", "unvented-hot-water-cylinder"

# condition -> (assembly, task, ways to isolate that are ruled out): a plan that makes it.
MADE: dict[str, tuple[str, dict[str, str], tuple[str, ...]]] = {
    "electrically-dead": (HEATER, {"do": "replace", "component": "ignition-unit"}, ()),
    "stored-charge-discharged": ("monobloc-heat-pump", {"do": "replace", "component": "inverter-board"}, ()),
    "fan-run-down": ("heat-recovery-unit", {"do": "replace", "component": "supply-fan"}, ()),
    "motor-isolated": ("roof-extract-fan", {"do": "replace", "component": "belt"}, ()),
    "fan-supply-isolated": ("roof-extract-fan", {"do": "replace", "component": "isolator"}, ()),
    "wheel-held": ("roof-extract-fan", {"do": "replace", "component": "belt"}, ()),
    "roof-access": ("roof-extract-fan", {"do": "inspect", "component": "cowl"}, ()),
    "height-access": (HEATER, {"do": "clean", "component": "flue-terminal"}, ()),
    "gas-isolated": (HEATER, {"do": "replace", "component": "gas-valve"}, ()),
    "gas-isolated-at-meter": (HEATER, {"do": "replace", "component": "gas-valve"}, ("appliance-gas-valve",)),
    "gas-users-off": (HEATER, {"do": "replace", "component": "appliance-valve"}, ()),
    "gas-pipework-isolated": (HEATER, {"do": "replace", "component": "appliance-valve"}, ()),
    "ventilated-no-ignition": ("monobloc-heat-pump", {"do": "replace", "component": "flow-switch"}, ()),
    "fibre-question-answered": (BOILER, {"do": "renew-seal", "joint": "cleaning-cover-nuts"}, ()),
    "cooled": (HEATER, {"do": "replace", "component": "pump-head"}, ()),
    "drained-between-valves": (HEATER, {"do": "replace", "component": "pump-head"}, ()),
    "filling-link-shut-off": (HEATER, {"do": "replace", "component": "filling-link"}, ()),
    "system-drained": (HEATER, {"do": "replace", "component": "pump-head"}, ("service-valves",)),
    "shut-off-between-valves": ("circulator-set", {"do": "replace", "component": "motor-head"}, ()),
    "domestic-drained": (HEATER, {"do": "replace", "component": "flow-sensor"}, ()),
    "domestic-drained-at-stop-valve": (HEATER, {"do": "replace", "component": "flow-sensor"}, ("inlet-valve",)),
    "store-cooled": (CYLINDER, {"do": "replace", "component": "immersion-heater"}, ()),
    "cylinder-shut-off": (CYLINDER, {"do": "test", "component": "vessel"}, ()),
    "cylinder-lowered": (CYLINDER, {"do": "renew-seal", "joint": "anode-plug"}, ()),
    "cylinder-drained": (CYLINDER, {"do": "replace", "component": "immersion-heater"}, ()),
    "cylinder-drained-at-stop-valve": (CYLINDER, {"do": "replace", "component": "immersion-heater"}, ("inlet-valve",)),
    "manifold-shut-off": ("underfloor-manifold", {"do": "replace", "component": "flow-meter-1"}, ()),
    "vessel-shut-off": ("expansion-vessel", {"do": "check-charge", "component": "gas-valve"}, ()),
    "gas-charge-let-down": ("expansion-vessel", {"do": "replace", "component": "membrane"}, ()),
    "gas-charge-let-down-system-drained": (
        "expansion-vessel",
        {"do": "replace", "component": "membrane"},
        ("cap-valve",),
    ),
    "make-up-shut-off": ("pressurisation-set", {"do": "replace", "component": "float-valve"}, ()),
    "break-tank-emptied": ("pressurisation-set", {"do": "clean", "component": "break-tank"}, ()),
    "set-shut-off": ("pressurisation-set", {"do": "replace", "component": "pump"}, ()),
    "set-emptied": ("pressurisation-set", {"do": "replace", "component": "pump"}, ("set-valves",)),
}

# Asked for by keys of the laws that plans do not keep yet: no plan makes them.
NOT_MADE_YET = {"dead-at-terminals", "lines-dead-at-terminals", "gas-closed", "heat-source-held-off"}

# What ends without a step of its own, and how.
ENDS_BY_ITSELF = {
    "stored-charge-discharged": "the supply charges it again",
    "fan-run-down": "the supply lets the fan start again",
    "cooled": "firing warms it again",
    "store-cooled": "its heat source warms it again",
    "fibre-question-answered": "an answer stays",
    "gas-charge-let-down": "the proof of the charge fills it again",
    "gas-charge-let-down-system-drained": "the proof of the charge fills it again",
    "break-tank-emptied": "it fills when its supply is opened",
}
# What takes time by itself, while the hands are free.
WAITS = {
    "stored-charge-discharged",
    "fan-run-down",
    "wheel-held",
    "cooled",
    "store-cooled",
    "drained-between-valves",
    "system-drained",
    "domestic-drained",
    "cylinder-drained",
    "vessel-shut-off",
}
# What is written down while it is made.
RECORDS = {
    "electrically-dead": ("As found", "Points of supply", "L-N / L-E / N-E in volts"),
    "motor-isolated": ("As found", "L1-L2 / L2-L3 / L3-L1 / L1-E / L2-E / L3-E in volts"),
    "stored-charge-discharged": ("Direct voltage in volts",),
    "gas-isolated": ("Pressure beyond the closed valve in mbar",),
    "gas-isolated-at-meter": ("Pressure at the meter in mbar",),
    "drained-between-valves": ("Gauge in bar",),
    "system-drained": ("Gauge in bar",),
    "cooled": ("Temperature in °C",),
    "store-cooled": ("Stored water in °C",),
    "fibre-question-answered": ("Register entry",),
    "roof-access": ("Permit number",),
}


def plan_of(assembly: str, task: dict[str, str], ruled_out: tuple[str, ...]) -> Plan:
    head = {"reference": "T", "title": "test", "assembly": assembly, "people": 2, "rule_out": ruled_out}
    job = JobFile.model_validate({"format": 1, "job": head, "task": [task]})
    return plan_visit(Visit(job, FIRM, LIBRARY)).plan


def test_every_condition_has_a_plan_here() -> None:
    assert set(MADE) | NOT_MADE_YET == set(LIBRARY.conditions) and not set(MADE) & NOT_MADE_YET


@pytest.mark.parametrize("name", sorted(MADE))
def test_condition_is_made_and_released(name: str) -> None:
    plan = plan_of(*MADE[name])
    made = [step.n for step in plan.steps if step.action == "make" and step.condition == name]
    released = [step.n for step in plan.steps if step.action == "release" and step.condition == name]
    assert plan.status == "proved" and len(made) == len(LIBRARY.conditions[name].make) > 0
    if name in ENDS_BY_ITSELF:
        assert not released and not LIBRARY.conditions[name].release
    else:
        assert len(released) == len(LIBRARY.conditions[name].release) > 0 and max(made) < min(released)


@pytest.mark.parametrize("name", sorted(LIBRARY.conditions))
def test_condition_can_be_confirmed_and_warns(name: str) -> None:
    condition = LIBRARY.conditions[name]
    assert condition.confirm and condition.confirm.endswith(".")
    assert condition.cautions or name == "gas-users-off"  # turning taps off hurts nobody


@pytest.mark.parametrize("name", sorted(WAITS))
def test_wait_is_planned(name: str) -> None:
    assert any(step.wait_min for step in LIBRARY.conditions[name].make)


@pytest.mark.parametrize("name", sorted(RECORDS))
def test_findings_are_written_down(name: str) -> None:
    written = [step.record for step in LIBRARY.conditions[name].make if step.record]
    assert [record for record in RECORDS[name] if record not in written] == []


def test_indicator_is_proved_before_and_after_the_test_of_dead() -> None:
    """Source: HSE GS38, prove the indicator before and after the test."""
    for name in ("electrically-dead", "motor-isolated", "fan-supply-isolated"):
        texts = [step.text for step in LIBRARY.conditions[name].make]
        locked = next(n for n, text in enumerate(texts) if "lock" in text.lower())
        dead = next(n for n, text in enumerate(texts) if text.startswith("Test dead"))
        proved = [n for n, text in enumerate(texts) if text.startswith("Prove the voltage indicator")]
        assert locked < proved[0] < dead < proved[1]


def test_pressure_is_seen_to_be_gone_at_gauge_and_vent() -> None:
    for name in ("drained-between-valves", "system-drained"):
        assert any("gauge" in step.text and "vent" in step.text for step in LIBRARY.conditions[name].make)


ROPES = [joint.id for joint in LIBRARY.assemblies[BOILER].joint if joint.circuit in ("flue", "chimney") and joint.seal]


@pytest.mark.parametrize("joint", ROPES)
def test_fibre_is_asked_about_before_an_old_rope_is_touched(joint: str) -> None:
    plan = plan_of(BOILER, {"do": "renew-seal", "joint": joint}, ())
    asked = max(step.n for step in plan.steps if step.condition == "fibre-question-answered")
    assert asked < min(step.n for step in plan.steps if step.action == "undo")


@pytest.mark.parametrize("panel", ["top-panel", "side-panel"])
def test_flammable_refrigerant_is_ventilated_before_a_panel_comes_off(panel: str) -> None:
    tasks = [task for task in LIBRARY.assemblies["monobloc-heat-pump"].component if panel in str(task.behind)]
    plan = plan_of("monobloc-heat-pump", {"do": "replace", "component": tasks[0].id}, ())
    made = [step.n for step in plan.steps if step.condition == "ventilated-no-ignition" and step.action == "make"]
    assert made and max(made) < min(step.n for step in plan.steps if step.action == "take")


def test_nobody_works_on_the_roof_before_the_way_up_is_safe() -> None:
    for component in LIBRARY.assemblies["roof-extract-fan"].component:
        for do in component.work:
            plan = plan_of("roof-extract-fan", {"do": do, "component": component.id}, ())
            first = min(step.n for step in plan.steps if step.phase != "make-safe")
            assert plan.status == "proved"
            assert any(step.n < first and step.condition == "roof-access" for step in plan.steps), (component.id, do)
