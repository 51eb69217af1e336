"""Facts of the trade that a catalogue of heaters must agree with. Every one of them: common practice, no source."""

from fractions import Fraction

import pytest
from tests.bundled import LIBRARY

from splitpin.calculations.vessel import vessel_by_acceptance, vessel_precharge, vessel_table
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
HEATERS = ["wall-hung-combination-heater", "wall-hung-system-heater"]


def plan_of(assembly: str, do: str, component: str) -> Plan:
    head = {"reference": "T", "title": "test", "assembly": assembly, "people": 2}
    task = {"do": do, "component": component}
    return plan_visit(Visit(JobFile.model_validate({"format": 1, "job": head, "task": [task]}), FIRM, LIBRARY)).plan


def leaves(plan: Plan) -> dict[str, str]:
    """Each component that leaves its place, and whether it ends out or aside."""
    return {row.id: row.ends for row in plan.opened.components}


@pytest.mark.parametrize("heater", HEATERS)
@pytest.mark.parametrize("electrode", ["ignition-electrode", "sensing-electrode"])
def test_electrode_comes_out_without_the_burner(heater: str, electrode: str) -> None:
    """Common practice, no source."""
    gone = leaves(plan_of(heater, "replace", electrode))
    assert gone.keys() == {"casing", electrode}


@pytest.mark.parametrize("heater", HEATERS)
@pytest.mark.parametrize("part", ["relief-valve", "air-vent"])
def test_relief_valve_and_air_vent_come_out_alone_held_by_one_clip(heater: str, part: str) -> None:
    """Common practice, no source. The relief valve also hangs on its discharge pipe, which ends at the wall."""
    assembly = LIBRARY.assemblies[heater]
    assert next(row for row in assembly.component if row.id == part).carried_by == "pump-block"
    holding = [joint for joint in assembly.joint if part in joint.between and "pump-block" in joint.between]
    assert [(joint.hardware, joint.count) for joint in holding] == [("spring-clip-joint", 1)]
    gone = leaves(plan_of(heater, "replace", part))
    assert gone == {"casing": "out", "control-tray": "aside", part: "out"}


@pytest.mark.parametrize("heater", HEATERS)
@pytest.mark.parametrize(
    "part", ["pump-head", "flow-block", "pressure-sensor", "air-vent", "relief-valve", "return-pipe"]
)
def test_board_is_moved_aside_not_out_for_the_water_side(heater: str, part: str) -> None:
    """Common practice, no source. The board sits on its tray and swings down with it."""
    gone = leaves(plan_of(heater, "replace", part))
    assert gone["control-tray"] == "aside" and "main-board" not in gone


def test_five_metres_of_static_height_go_with_a_charge_of_0_8_bar() -> None:
    """Common practice, no source: static height plus 0.3 bar."""
    charge, _ = vessel_precharge(static_m=Fraction(5), rule="static-plus")
    assert charge == Fraction("0.8")


def test_vessels_of_8_to_12_litres_suit_the_water_of_a_house() -> None:
    """Common practice, no source: 8 to 12 litres at 27 to 32 kW; with 100 litres of water both rules agree."""
    (_, simple) = vessel_by_acceptance(system_l=Fraction(100), expansion_percent=Fraction(4), acceptance=Fraction(1, 2))
    (by_table,) = vessel_table(system_l=Fraction(100), relief_bar="3.0", initial_bar="1.0", below_88=False)
    assert 8 <= simple <= 12 and 8 <= by_table <= 12


def test_pump_heads_of_4_to_6_metres_are_what_the_catalogue_says_is_usual() -> None:
    """Common practice, no source."""
    for heater in HEATERS:
        notes = " ".join(LIBRARY.assemblies[heater].assembly.notes)
        assert "pump heads of 4 to 6 m and vessels of 8 to 12 litres are usual at 27 to 32 kW" in notes


def test_combustion_is_sampled_after_several_minutes_of_firing() -> None:
    """Common practice, no source."""
    for proof in ("combustion-analysis", "flue-gas-analysis"):
        steps = LIBRARY.proofs[proof].step
        fired = next(n for n, step in enumerate(steps) if step.text.startswith("Fire the burner"))
        read = next(n for n, step in enumerate(steps) if step.text.startswith("Write the readings"))
        assert fired < read and sum(step.wait_min or 0 for step in steps[fired:read]) >= 3


def test_gas_and_air_are_set_at_minimum_then_at_maximum_and_checked_at_minimum() -> None:
    """Common practice, no source."""
    texts = [step.text for step in LIBRARY.proofs["gas-air-setting"].step]
    order = [
        next(n for n, text in enumerate(texts) if text.startswith(start))
        for start in ("Set CO2 at the lowest rate", "Fire the burner at its highest rate", "Go back to the lowest rate")
    ]
    assert order == sorted(order)


@pytest.mark.parametrize("heater", HEATERS)
def test_heater_is_serviced_every_year_and_its_warranty_registered_within_30_days(heater: str) -> None:
    """Common practice, no source."""
    casing = next(row for row in LIBRARY.assemblies[heater].component if row.role == "casing")
    words = " ".join(casing.work["commission"].steps)
    assert "serviced every year" in words and "warranty within 30 days" in words
    assert casing.work["commission"].basis == "common practice"
