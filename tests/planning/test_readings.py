"""A proof's readings on the plan: the limits that stand on the day, and the calculations that go with them.

Worked examples: sections 8.6, 8.9 and 8.21 of the trade reference beside this checkout, computed by hand there.
"""

import datetime
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from tests.bundled import LIBRARY

from splitpin.calculations.limits import NOT_SET
from splitpin.calculations.register import READINGS
from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.reading.calculated import misused_by_job, misused_by_proofs
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Library, Visit
from splitpin.records.plan import Plan, PlanCalculation, PlanReading
from splitpin.records.procedure import Limit

FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
        "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
    }
)
GAS_VALVE = ("wall-hung-combination-heater", "replace", "gas-valve")
VESSEL = ("expansion-vessel", "replace", "membrane")


def job(what: tuple[str, str, str], readings: dict[str, dict[str, object]], **head: object) -> JobFile:
    assembly, do, component = what
    first = {"reference": "T", "title": "-", "assembly": assembly, "people": 2, **head}
    task = {"do": do, "component": component}
    return JobFile.model_validate({"format": 1, "job": first, "task": [task], "readings": readings})


def planned(
    what: tuple[str, str, str],
    readings: dict[str, dict[str, object]] | None = None,
    library: Library = LIBRARY,
    **head: object,
) -> Plan:
    visit = Visit(job(what, readings or {}, **head), FIRM, library)
    plan = plan_visit(visit).plan
    assert check_plan(plan, visit) == ()
    return plan


def calculation(plan: Plan, proof: str, number: int = 0) -> PlanCalculation:
    return next(row for row in plan.proofs if row.id == proof).calculations[number]


def reading(plan: Plan, proof: str, name: str) -> PlanReading:
    rows = next(row for row in plan.proofs if row.id == proof).readings
    return next(row for row in rows if row.id == name)


def values(row: PlanCalculation) -> list[str | None]:
    return [figure.value for figure in row.figures]


def test_the_charge_follows_from_the_height_that_the_job_gives() -> None:
    # 8.9 by its rule: 5 m are 0.5 bar, and 0.3 bar on top; cold fill another 0.3 bar.
    row = calculation(planned(VESSEL, {"vessel-precharge": {"static_m": 5}}), "membrane-vessel-charge")
    assert values(row) == ["0.80", "1.10"]
    assert [one.value for one in row.inputs] == ["5", "static-plus"]
    assert (row.formula, row.source) == (READINGS["vessel-precharge"].formula, READINGS["vessel-precharge"].source)


def test_what_the_job_does_not_say_is_a_box_with_its_unit() -> None:
    row = calculation(planned(VESSEL), "membrane-vessel-charge")
    assert [(one.name, one.unit, one.value, one.by_default) for one in row.inputs] == [
        ("static_m", "m", None, False),
        ("rule", "", "static-plus", True),
    ]
    assert values(row) == [None, None]
    assert [figure.unit for figure in row.figures] == ["bar", "bar"]


def test_a_ratio_is_worked_out_from_the_readings_beside_it_each_time() -> None:
    plan = planned(GAS_VALVE)
    high, low = (calculation(plan, "combustion-analysis", number) for number in (0, 1))
    assert (high.readings, low.readings) == (("co-co2-ratio-high",), ("co-co2-ratio-low",))
    assert [one.reading for one in high.inputs] == ["CO at the highest rate", "CO2 at the highest rate"]
    assert [one.reading for one in low.inputs] == ["CO at the lowest rate", "CO2 at the lowest rate"]
    assert high.figures == ()  # the reading itself has the box


def test_two_readings_of_one_calculation_share_it() -> None:
    assert calculation(planned(GAS_VALVE), "gas-rate").readings == ("gas-rate", "heat-input")


def test_a_calculation_that_decides_a_limit_stands_beside_the_reading() -> None:
    # 8.7: a G4 meter and 9 m of 15 mm pipe are 0.009386 m³, the purge 1.5 times that.
    given: dict[str, dict[str, object]] = {"installation-volume": {"meter": "g4", "copper_15_m": 9}}
    row = calculation(planned(GAS_VALVE, given), "gas-tightness")
    assert values(row) == ["0.009386", "0.014079"]
    assert [(one.name, one.value) for one in row.inputs] == [("meter", "g4"), ("copper_15_m", "9")]


def test_what_there_is_none_of_by_default_is_a_box_until_the_rest_is_known() -> None:
    row = calculation(planned(GAS_VALVE), "gas-tightness")
    assert {one.value for one in row.inputs} == {None} and not any(one.by_default for one in row.inputs)
    assert {"meter", "copper_15_m", "copper_35_m"} <= {one.name for one in row.inputs}


@pytest.mark.parametrize(
    ("co", "co2", "ratio", "passes"),
    [(350, 8.75, "0.00400", [True, True]), (361, 9.0, "0.00401", [False, False]), (40, 8, "0.00050", [True, True])],
)
def test_what_no_proof_asks_for_is_worked_out_by_itself(co: int, co2: float, ratio: str, passes: list[bool]) -> None:
    # 8.6: 350 ppm at 8.75 % is 0.0040 exactly and passes; 361 ppm at 9.0 % fails both ways.
    (row,) = planned(VESSEL, {"co-co2-ratio": {"co_ppm": co, "co2_percent": co2}}).calculations
    assert values(row) == [ratio, str(co)]
    assert [figure.passes for figure in row.figures] == passes


def test_readings_of_another_day_are_worked_out_apart_from_those_of_the_visit() -> None:
    plan = planned(GAS_VALVE, {"co-co2-ratio": {"co_ppm": 40, "co2_percent": 8}})
    assert [row.name for row in plan.calculations] == ["co-co2-ratio"]
    assert calculation(plan, "combustion-analysis").figures == ()


def test_a_test_pressure_follows_from_the_working_pressure() -> None:
    (row,) = planned(VESSEL, {"test-pressure-heating": {"operating_bar": 1.5}}).calculations
    assert values(row) == ["1.95"]  # 8.21


def test_where_the_method_ends_the_plan_says_so() -> None:
    given: dict[str, dict[str, object]] = {"vessel-precharge": {"static_m": 12, "rule": "one-bar"}}
    row = calculation(planned(VESSEL, given), "membrane-vessel-charge")
    assert (row.outside, values(row)) == ("the rule of 1 bar ends at 10 m of static height", [None, None])
    (notice,) = misused_by_job(job(VESSEL, given))
    assert (notice.code, notice.hint) == ("outside-method", "take rule=static-plus")


# Limits on the plan.


def with_limit(**fields: object) -> Library:
    """The library with another first row for the CO/CO2 ratio."""
    gb = LIBRARY.limits["gb"]
    rows = [row for row in gb.limit if row.id != "co-co2-ratio"]
    row = Limit.model_validate({"id": "co-co2-ratio", "unit": "ratio", "max": 0.004, **fields})
    return replace(LIBRARY, limits={**LIBRARY.limits, "gb": gb.model_copy(update={"limit": (row, *rows)})})


def test_a_limit_from_memory_is_not_set_on_the_plan() -> None:
    library = with_limit(basis="from memory")
    found = reading(planned(GAS_VALVE, library=library, date=datetime.date(2026, 10, 22)), "combustion-analysis", RATIO)
    assert (found.min, found.max, found.source, found.note) == (None, None, None, NOT_SET)


def test_a_limit_with_days_is_not_set_for_a_job_without_a_date() -> None:
    library = with_limit(source="a standard", valid_from=datetime.date(2026, 1, 1))
    found = reading(planned(GAS_VALVE, library=library), "combustion-analysis", RATIO)
    assert found.max is None and found.note is not None and found.note.startswith(NOT_SET)
    dated = planned(GAS_VALVE, library=library, date=datetime.date(2026, 10, 22))
    assert reading(dated, "combustion-analysis", RATIO).max == 0.004


def test_two_editions_of_one_standard_choose_by_the_day_of_the_job() -> None:
    # Trade reference 3.2: test pressure 20 to 21 mbar until 30 September 2026, from then on not below 18 mbar.
    bounds = []
    for day in (datetime.date(2026, 9, 30), datetime.date(2026, 10, 1)):
        found = reading(planned(GAS_VALVE, date=day), "gas-tightness", "tightness-test-pressure")
        bounds.append((found.min, found.max))
    assert bounds == [(20, 21), (18, 21)]


RATIO = "co-co2-ratio-high"


# What cannot be worked out is said before anything is planned.


def test_the_readings_of_the_procedures_are_what_the_calculations_have() -> None:
    assert list(misused_by_proofs(LIBRARY)) == []


@pytest.mark.parametrize(
    ("readings", "message", "hint"),
    [
        (
            {"vessel-precharg": {"static_m": 5}},
            "[readings] names `vessel-precharg`, but there is no calculated reading of that name",
            "did you mean `vessel-precharge`?",
        ),
        (
            {"vessel-precharge": {"static": 5}},
            "vessel-precharge has no input `static`",
            "did you mean `static_m`?",
        ),
        (
            {"vessel-precharge": {"static_m": 500}},
            "vessel-precharge: `static_m=500` is out of range",
            "height of water above the vessel: 0 to 60 m; check the figure and its unit",
        ),
        (
            {"vessel-precharge": {"static_m": [5]}},
            "vessel-precharge: `static_m=[5]` is not a figure",
            "write the figure alone, in m, with a decimal point; 0 to 60 m",
        ),
        (
            {"co2-equivalent": {"hermetic": 1}},
            "co2-equivalent: `hermetic=1` is not a choice",
            "hermetically sealed and labelled so: yes or no",
        ),
    ],
)
def test_what_a_job_cannot_say_is_told(readings: dict[str, dict[str, object]], message: str, hint: str) -> None:
    (notice,) = misused_by_job(job(VESSEL, readings))
    assert (notice.code, notice.message, notice.hint) == ("bad-reading", message, hint)


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"calculated": "co-ratio"}, "`calculated` names `co-ratio`, but there is no calculated reading of that name"),
        ({"result": "rate"}, "co-co2-ratio has no result `rate`"),
        ({"inputs": {"co": "co-high"}}, "co-co2-ratio has no input `co`"),
        (
            {"inputs": {"co_ppm": "x"}},
            "`co_ppm` is said to be the reading `x`, which this proof does not have beside it",
        ),
        ({"calculated": None, "inputs": {}}, "nothing says what it is calculated by"),
    ],
)
def test_what_a_proof_cannot_say_is_told(changed: dict[str, object], message: str) -> None:
    proof = LIBRARY.proofs["combustion-analysis"]
    rows = [row.model_copy(update=changed) if row.id == RATIO else row for row in proof.reading]
    wrong = proof.model_copy(update={"reading": tuple(rows)})
    (notice,) = misused_by_proofs(replace(LIBRARY, proofs={**LIBRARY.proofs, proof.id: wrong}))
    assert notice.code == "bad-reading"
    assert notice.message == f"reading {RATIO} of proof combustion-analysis: {message}"
    assert notice.place.path.endswith("combustion.toml")


def test_check_tells_a_job_of_its_readings(firm: Path) -> None:
    file = firm / "job.toml"
    file.write_text(
        'format = 1\n[job]\nreference = "T"\ntitle = "-"\nassembly = "expansion-vessel"\n'
        '[readings.vessel-precharge]\nstatic_m = -1\n[[task]]\ndo = "replace"\ncomponent = "membrane"\n',
        encoding="utf-8",
    )
    command = Path(sys.executable).parent / "splitpin"
    for words in (["check", str(firm)], ["plan", str(file)]):
        done = subprocess.run([command, *words], capture_output=True, text=True, check=False)
        assert done.returncode == 1
        assert "job.toml:6:1: error[bad-reading]: vessel-precharge: `static_m=-1` is out of range" in done.stderr


def test_inputs_that_are_left_out_are_no_fault() -> None:
    assert list(misused_by_job(job(GAS_VALVE, {"gas-rate-metric": {"cv_mj_m3": 39.0}, "co2-equivalent": {}}))) == []


def test_a_truth_and_a_small_figure_reach_the_calculation_as_typed() -> None:
    given = {"installation-volume": {"meter": "none", "other_m3": 0.00001}, "co2-equivalent": {"hermetic": True}}
    typed = job(GAS_VALVE, given).readings
    assert typed["installation-volume"].typed["other_m3"] == "0.00001"
    assert typed["co2-equivalent"].typed["hermetic"] == "yes"
