"""Every kind of plant has its yearly service and its commissioning; what is not fitted is reported."""

import pytest
from tests.bundled import LIBRARY
from tests.planning.test_every_task import visit_for

from splitpin.notices import has_errors
from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
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

# assembly -> its yearly service, and how many of its lines this plant has nothing for.
SERVICES = {
    "wall-hung-combination-heater": ("annual-service", 0),
    "wall-hung-system-heater": ("annual-service", 0),
    "floor-standing-boiler": ("floor-standing-boiler-service", 0),
    "monobloc-heat-pump": ("heat-pump-service", 0),
    "circulator-set": ("circulator-service", 1),  # one head: no changeover
    "circulator-twin-head": ("circulator-service", 0),
    "pressurisation-set": ("pressurisation-service", 0),
    "unvented-hot-water-cylinder": ("hot-water-cylinder-service", 0),
    "heat-recovery-unit": ("ventilation-service", 0),
    "underfloor-manifold": ("manifold-service", 0),
    "expansion-vessel": ("vessel-service", 0),
    "roof-extract-fan": ("extract-fan-service", 0),
}
OTHERS = [
    ("wall-hung-combination-heater", "strip-and-clean", 0),
    ("wall-hung-system-heater", "strip-and-clean", 0),
    ("wall-hung-combination-heater", "heater-commissioning", 0),
    ("wall-hung-system-heater", "heater-commissioning", 1),  # its hot water is made elsewhere
    ("circulator-set", "circulator-commissioning", 0),
    ("circulator-twin-head", "circulator-commissioning", 0),
    ("pressurisation-set", "pressurisation-commissioning", 0),
    ("floor-standing-boiler", "floor-standing-boiler-commissioning", 0),
    ("monobloc-heat-pump", "heat-pump-commissioning", 0),
    ("unvented-hot-water-cylinder", "hot-water-cylinder-commissioning", 0),
    ("heat-recovery-unit", "ventilation-commissioning", 0),
    ("underfloor-manifold", "manifold-commissioning", 0),
    ("roof-extract-fan", "extract-fan-commissioning", 0),
    ("expansion-vessel", "vessel-commissioning", 0),
]


def visit_by(assembly: str, template: str) -> Visit:
    head = {"reference": "T", "title": "test", "assembly": assembly, "people": 2, "template": [template]}
    return Visit(JobFile.model_validate({"format": 1, "job": head}), FIRM, LIBRARY)


def missing(plan: Plan) -> list[str]:
    return [notice.message for notice in plan.notices if notice.code == "role-not-fitted"]


def test_every_assembly_has_a_service() -> None:
    assert set(SERVICES) == set(LIBRARY.assemblies)


@pytest.mark.parametrize("assembly", sorted(SERVICES))
def test_service_is_planned_and_reports_what_is_not_fitted(assembly: str) -> None:
    template, unfitted = SERVICES[assembly]
    visit = visit_by(assembly, template)
    plan = plan_visit(visit).plan
    assert plan.status == "proved" and not has_errors(plan.notices) and check_plan(plan, visit) == ()
    assert len(missing(plan)) == unfitted, missing(plan)


@pytest.mark.parametrize(("assembly", "template", "unfitted"), OTHERS)
def test_template_is_planned_whole(assembly: str, template: str, unfitted: int) -> None:
    visit = visit_by(assembly, template)
    plan = plan_visit(visit).plan
    assert plan.status == "proved" and check_plan(plan, visit) == ()
    assert len(missing(plan)) == unfitted, missing(plan)


def test_service_of_another_plant_says_what_is_not_there() -> None:
    plan = plan_visit(visit_by("circulator-set", "annual-service")).plan
    assert "Annual service: this assembly has no casing, so the task inspect falls away" in missing(plan)


def test_commissioning_proves_a_heater_once_from_the_beginning() -> None:
    """The proofs that a first firing wants: common practice, no source."""
    proofs = {proof.id for proof in plan_visit(visit_by("wall-hung-system-heater", "heater-commissioning")).plan.proofs}
    gas = {
        "gas-tightness",
        "gas-leak-detection",
        "gas-rate",
        "combustion-analysis",
        "flue-integrity",
        "room-seal-check",
    }
    electrical = {"earth-continuity", "insulation-resistance", "polarity"}
    water = {"water-leak-check", "fill-and-pressure", "hot-pressure-check", "water-treatment-check", "vessel-precharge"}
    safety = {"relief-valve-function", "safety-device-function", "function-test"}
    assert proofs >= gas | electrical | water | safety | {"condensate-trap-primed", "condensate-trap-running"}
    assert "hot-water-delivery" not in proofs


@pytest.mark.parametrize(
    "visit",
    [
        visit_by("wall-hung-combination-heater", "heater-commissioning"),
        visit_for("wall-hung-combination-heater", {"do": "clean", "component": "inlet-filter"}),
        visit_for("wall-hung-combination-heater", {"do": "replace", "component": "plate-exchanger"}),
    ],
    ids=["commissioning", "inlet filter", "plate exchanger"],
)
def test_hot_water_is_measured_where_the_heater_makes_it(visit: Visit) -> None:
    """What a combination heater delivers at a tap, measured once it is hot and before it is handed over."""
    proofs = [proof.id for proof in plan_visit(visit).plan.proofs]
    assert "hot-water-delivery" in proofs and proofs.index("hot-water-delivery") < proofs.index("function-test")


@pytest.mark.parametrize(
    ("assembly", "template", "proofs"),
    [
        (
            "floor-standing-boiler",
            "floor-standing-boiler-commissioning",
            {
                "gas-tightness",
                "valve-proving",
                "spillage",
                "burner-setting",
                "flue-gas-analysis",
                "safety-device-function",
            },
        ),
        ("monobloc-heat-pump", "heat-pump-commissioning", {"vessel-precharge", "flow-recorded", "melt-water-drain"}),
        (
            "unvented-hot-water-cylinder",
            "hot-water-cylinder-commissioning",
            {"potable-vessel-precharge", "store-relief-function", "energy-cut-out-function", "hygiene-flush"},
        ),
        ("heat-recovery-unit", "ventilation-commissioning", {"drain-trap-filled", "airflow-balance"}),
        (
            "underfloor-manifold",
            "manifold-commissioning",
            {"floor-loop-pressure-test", "loop-purge", "loop-flows", "flow-limit-function", "room-calls"},
        ),
        (
            "roof-extract-fan",
            "extract-fan-commissioning",
            {"motor-insulation", "phase-rotation", "motor-current", "extract-rate", "airflow-interlock"},
        ),
        ("expansion-vessel", "vessel-commissioning", {"membrane-vessel-charge", "hot-pressure-check"}),
    ],
)
def test_commissioning_proves_what_this_plant_is_for(assembly: str, template: str, proofs: set[str]) -> None:
    """Common practice, no source."""
    assert {proof.id for proof in plan_visit(visit_by(assembly, template)).plan.proofs} >= proofs


COMMISSIONING = [row[:2] for row in OTHERS if row[1].endswith("commissioning") and row[0] != "expansion-vessel"]


@pytest.mark.parametrize(("assembly", "template"), COMMISSIONING)
def test_supply_is_proved_with_its_cover_still_off(assembly: str, template: str) -> None:
    """Polarity is traced to the terminals: common practice. On three phases the insulation test stands for it."""
    plan = plan_visit(visit_by(assembly, template)).plan
    proved = max(step.n for step in plan.steps if step.proof in ("earth-continuity", "polarity", "motor-insulation"))
    components = LIBRARY.assemblies[assembly].component
    terminals = [component for component in components if component.role == "supply-terminals"]
    before = {name for component in terminals for name in component.behind[0]}
    covers = {component.id for component in components if component.guards and component.id in before}
    refitted = {step.component: step.n for step in plan.steps if step.action == "fit" and step.component in covers}
    assert refitted and min(refitted.values()) > proved
