"""Worked examples 8.17 to 8.20 of the trade reference beside this checkout, computed again by planning and its lists.

*Derived* there: inputs chosen, output worked out by hand. 8.17 is a published day of work sampling (S57) whose own sum
is wrong by a minute; no code of ours uses it, so it is only held against itself.
"""

import re
from fractions import Fraction
from math import prod
from pathlib import Path

import pytest
from tests.bundled import LIBRARY

from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.planning.plant.elements import work_seconds
from splitpin.records.assembly import Work
from splitpin.records.base import Spread
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import Plan
from splitpin.supply.chances import chances_of
from splitpin.supply.problem import Fault, Item, Job, LoadProblem
from splitpin.timing.elements import three_point

FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
        "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
    }
)
HEATER = "wall-hung-combination-heater"


@pytest.fixture(scope="module")
def text(reference: Path) -> str:
    return (reference / "trade.md").read_text(encoding="utf-8")


# -- 8.17, S57


def test_the_day_of_work_sampling_adds_up_to_one_minute_less_than_it_says(text: str) -> None:
    said = re.search(r"480-min maintenance day: (.*?), leaving 168 min \(35 %\) direct work", text)
    assert said is not None
    unproductive = [int(figure) for figure in re.findall(r"\b(\d+)\b", said[1])]
    assert sum(unproductive) == 311 != 480 - 168
    assert Fraction(168, 480) == Fraction("0.35")


# -- 8.18


@pytest.mark.parametrize(
    ("available", "printed"), [(("0.95", "0.95", "0.90"), "0.812"), (("0.98",) * 6, "0.886")], ids=["three", "six"]
)
def test_a_job_is_filled_when_every_item_of_it_is_there(available: tuple[str, ...], printed: str, text: str) -> None:
    # An item that is there with chance p: one aboard, and a job before this one that takes it with chance 1 - p.
    assert f"→ {printed}" in text
    shares = [Fraction(p) for p in available]
    takers = tuple(
        Job(0, (Fault(int(share * 100)), Fault(100 - int(share * 100), ((item, 1),))))
        for item, share in enumerate(shares)
    )
    last = Job(1, (Fault(1, tuple((item, 1) for item in range(len(shares)))),))
    problem = LoadProblem(tuple(Item(aboard=1) for _ in shares), (*takers, last))
    found = chances_of(problem, (1,) * len(shares))
    assert found.given_up == 0
    assert found.jobs[-1] == pytest.approx(float(prod(shares)), abs=1e-12)
    assert round(found.jobs[-1], 3) == float(printed)


# -- 8.19


def test_three_points_give_the_mean_that_the_plan_takes_and_its_spread() -> None:
    mean, sd = three_point(20, 30, 60)
    assert (round(mean, 1), round(sd, 2)) == (33.3, 6.67)
    work = Work(needs="exposed", min=Spread(low=20, mode=30, high=60), basis="common practice")
    assert work_seconds(work) == 2000  # 33 1/3 min


# -- 8.20: the union of the proofs that section 3.7 asks for

TAGS = {
    "P-GT": {"gas-tightness"},
    "P-LD": {"gas-leak-detection", "gas-leak-detection-burner-lit"},
    "P-FN": {"function-test"},
    "P-GR": {"gas-rate"},
    "P-CA": {"combustion-analysis"},
    "P-FI": {"flue-integrity"},
    "P-CS": {"room-seal-check"},
    "P-EC": {"earth-continuity"},
    "P-IR": {"insulation-resistance"},
    "P-PO": {"polarity"},
    "P-SD": {"safety-device-function", "relief-valve-function", "hot-pressure-check"},
    "P-PC": {"vessel-precharge", "membrane-vessel-charge"},
    "P-PV": {"fill-and-pressure"},
    "parameters": {"settings-restored"},
}


def planned(assembly: str, do: str, component: str) -> Plan:
    head = {"reference": "T", "title": "-", "assembly": assembly, "people": 2}
    task = {"do": do, "component": component}
    visit = Visit(JobFile.model_validate({"format": 1, "job": head, "task": [task]}), FIRM, LIBRARY)
    plan = plan_visit(visit).plan
    assert check_plan(plan, visit) == ()
    return plan


def tags(plan: Plan) -> set[str]:
    proofs = {proof.id for proof in plan.proofs}
    assert proofs <= set.union(*TAGS.values()), proofs
    return {tag for tag, ids in TAGS.items() if ids & proofs}


@pytest.mark.parametrize(
    ("assembly", "do", "component", "expected"),
    [
        (HEATER, "replace", "gas-valve", {"P-GT", "P-LD", "P-FN", "P-GR", "P-CA", "P-FI", "P-CS", "P-EC"}),
        (HEATER, "replace", "main-board", {"P-EC", "P-IR", "P-PO", "P-FN", "P-SD", "parameters", "P-CS", "P-FI"}),
        (HEATER, "test", "vessel", {"P-PC", "P-PV", "P-SD"}),
        ("expansion-vessel", "check-charge", "gas-valve", {"P-PC", "P-PV", "P-SD"}),
        (
            HEATER,
            "replace",
            "diverter-actuator",
            {"P-FN", "P-CS", "P-FI"},
        ),  # a latched plug; the casing is the room seal
    ],
)
def test_what_is_disturbed_brings_the_union_of_its_proofs(
    assembly: str, do: str, component: str, expected: set[str]
) -> None:
    assert tags(planned(assembly, do, component)) == expected


def test_both_joints_of_the_gas_valve_are_proved_each_in_its_own_way() -> None:
    # 3.7: up to the valve seat by tightness test and leak detection, beyond it with the burner lit.
    proofs = {proof.id: proof.joints for proof in planned(HEATER, "replace", "gas-valve").proofs}
    assert proofs["gas-tightness"] and proofs["gas-leak-detection-burner-lit"]
    assert not set(proofs["gas-tightness"]) & set(proofs["gas-leak-detection-burner-lit"])


def test_every_visit_ends_with_its_record() -> None:
    # 3.7, last row, and "P-RC always"
    for task in (("replace", "main-board"), ("replace", "diverter-actuator")):
        plan = planned(HEATER, *task)
        assert plan.steps[-1].phase == "hand-over" and plan.steps[-1].action == "record"
