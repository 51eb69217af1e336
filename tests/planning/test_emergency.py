"""Emergency words stop a job before it is planned, whatever stands round them; only the job itself can rule them out.

Which words count is our own choice (common practice of a repair desk, no source); the sentences are our own.
"""

import itertools
import re
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.bundled import LIBRARY
from tests.examples import JOBS, planned

from splitpin.planning import plan_visit
from splitpin.planning.asked.emergency import spoken_of, stops_for_emergency
from splitpin.planning.check import check_plan
from splitpin.planning.check.emergency import emergencies
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

ASSEMBLY = "wall-hung-combination-heater"
GAS, CO, WATER, FIRE, SHOCK, STEAM = (
    "gas-escape",
    "carbon-monoxide",
    "water-on-electrics",
    "fire-or-smoke",
    "electric-shock",
    "boiling-or-bursting",
)


def firm(**numbers: str) -> FirmFile:
    return FirmFile.model_validate(
        {
            "format": 1,
            "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
            "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
            "emergency_numbers": numbers,
        }
    )


def visit(report: str | None = None, *, job: dict[str, str] | None = None, **tables: object) -> Visit:
    head = {"reference": "T", "title": "no heat", "assembly": ASSEMBLY, "report": report, **(job or {})}
    tasks = [{"do": "replace", "component": "pump-head"}]
    return Visit(JobFile.model_validate({"format": 1, "job": head, "task": tasks, **tables}), firm(), LIBRARY)


def found(report: str) -> set[str]:
    told = visit(report)
    ids = {one.emergency.id for one in spoken_of(told)}
    assert ids == emergencies(told)  # the independent check reads the same
    return ids


@pytest.mark.parametrize(
    ("report", "expected"),
    [
        ("There is a smell of gas in the kitchen.", {GAS}),
        ("SMELLING GAS since this morning", {GAS}),
        ("Gas-smell at the meter", {GAS}),
        ("A slight smell, we think it might be gas", {GAS}),
        ("gas\u2011leak!", {GAS}),  # a non-breaking hyphen
        ("smel of gas by the meter", {GAS}),  # as typed in haste
        ("gas leeking", {GAS}),
        ("co alram", {CO}),
        ("Es riecht nach Gas", {GAS}),
        ("Gasgeruch im Keller", {GAS}),
        ("Huele a gas en la cocina", {GAS}),
        ("The CO alarm is sounding", {CO}),
        ("co-alarm went off twice", {CO}),
        ("the C.O. alarm beeps", {CO}),
        ("Carbon Monoxide detector red", {CO}),
        ("Headaches whenever the heater runs, and he feels quite sick", {CO}),
        ("Monóxido de carbono?", {CO}),
        ("lazy yellow flame", {CO}),
        ("Water is dripping on the electrics", {WATER}),
        ("leak into the consumer unit", {WATER}),
        ("water through the kitchen light", {WATER}),
        ("burning smell from the fan", {FIRE}),
        ("It smells of burning", {FIRE}),
        ("smoke from the casing", {FIRE}),
        ("the plug has melted", {FIRE}),
        ("I got a shock off the pipe", {SHOCK}),
        ("the taps are live", {SHOCK}),
        ("Steam at the tundish", {STEAM}),
        ("Tundish steaming", {STEAM}),
        ("burst pipe in the loft", {STEAM}),
    ],
)
def test_the_words_are_found(report: str, expected: set[str]) -> None:
    assert found(report) == expected


@pytest.mark.parametrize(
    "report",
    [
        "Gas fire in the lounge works, radiators stay cold.",
        "Smells of drains near the sink. The heater is a gas one, twelve years old, serviced last spring.",
        "No hot water, display shows a fault.",
        "CO2 reading was 9.0 at the last service.",
        "Gasket weeps at the burner door.",
        "Leak at the flow switch and below the pump isolating valve.",
        "Sparks but does not light.",
        "Fan burnished, cogas flange, smellgas",  # only whole words count
        "Turn on the heating: nothing.",
        "",
    ],
)
def test_a_usual_report_is_no_emergency(report: str) -> None:
    assert found(report or "-") == set()


@pytest.mark.parametrize("report", ["No smell of gas.", "There isn't any gas smell", "CO alarm has not gone off"])
def test_a_no_before_the_words_changes_nothing(report: str) -> None:
    assert found(report)


@pytest.mark.parametrize("name", sorted(LIBRARY.emergencies))
def test_every_phrase_of_the_list_is_found_in_each_of_its_readings(name: str) -> None:
    for phrase in LIBRARY.emergencies[name].phrases:
        choices = [word.split("|") for word in phrase.replace("-", " ").split()]
        for turn in range(max(map(len, choices))):
            text = " ".join(words[turn % len(words)] for words in choices)
            assert name in found(text), (phrase, text)


def test_only_the_symptoms_that_name_an_emergency_stop_a_job() -> None:
    stopped = set()
    for assembly, symptom in itertools.chain.from_iterable(
        ((name, row.id) for row in record.symptom) for name, record in LIBRARY.assemblies.items()
    ):
        head = {"reference": "T", "title": "-", "assembly": assembly, "symptoms": [symptom]}
        if spoken_of(Visit(JobFile.model_validate({"format": 1, "job": head}), firm(), LIBRARY)):
            stopped.add((assembly, symptom))
    assert stopped == {("floor-standing-boiler", "soot-or-smell")}  # it names a CO alarm


@pytest.mark.parametrize(
    ("told", "where"),
    [
        (visit(job={"title": "Gas leak at heater"}), "the title"),
        (visit(site={"notes": "Tenant says: smell of gas"}), "a note on the site"),
        (visit(site={"access": "gas smell in the hall"}), "a note on the site"),
        (visit(task=[{"do": "replace", "component": "pump-head", "note": "smells of gas"}]), "a note on a task"),
    ],
)
def test_every_text_of_the_job_is_read(told: Visit, where: str) -> None:
    (one,) = spoken_of(told)
    assert (one.emergency.id, one.where) == (GAS, where)


def test_nothing_is_planned_and_the_page_says_what_to_do() -> None:
    told = visit("Smell of gas, and the CO alarm sounds")
    plan = plan_visit(told).plan
    assert (plan.status, plan.steps, plan.tasks, plan.parts) == ("impossible", (), (), ())
    assert {stop.id: stop.words for stop in plan.stops} == {GAS: "Smell of gas", CO: "CO alarm"}
    gas = next(stop for stop in plan.stops if stop.id == GAS)
    assert gas.do == LIBRARY.emergencies[GAS].do and gas.origin == "common practice"
    assert [(notice.code, notice.severity) for notice in plan.notices] == [("emergency-reported", "error")] * 2
    assert check_plan(plan, told) == ()


def test_a_number_is_printed_only_where_the_firm_gives_one() -> None:
    told = visit("smell of gas")
    assert [stop.call for stop in plan_visit(told).plan.stops] == ["enter your gas emergency number in firm.toml"]
    known = Visit(told.job, firm(gas="01632 960 199"), LIBRARY)
    assert [stop.call for stop in plan_visit(known).plan.stops] == ["gas emergency number: 01632 960 199"]


WORDS = sorted(
    {word for row in LIBRARY.emergencies.values() for text in row.phrases for word in re.split(r"[ |-]", text)}
    | {"the", "of", "in", "no", "heater"}
)


@given(
    st.lists(st.sampled_from(WORDS), max_size=12), st.lists(st.sampled_from([" ", ", ", "-", ". ", " / "]), min_size=12)
)
def test_the_independent_check_finds_the_same_in_any_row_of_words(row: list[str], gaps: list[str]) -> None:
    found("".join(word + gap for word, gap in zip(row, gaps, strict=False)) or "-")


def test_the_check_refuses_a_plan_that_was_made_all_the_same() -> None:
    quiet = visit("no heat")
    plan, told = plan_visit(quiet).plan, visit("smell of gas")
    assert plan.steps and check_plan(plan, quiet) == ()
    assert {fault.rule for fault in check_plan(plan, told)} == {"emergency"}
    assert {fault.rule for fault in check_plan(plan_visit(told).plan, quiet)} == {"emergency"}


def ruled_out(report: str | None) -> Plan:
    return plan_visit(visit(report, job={"emergency_ruled_out": "A. Fell, by telephone: it was the drain"})).plan


def test_the_job_can_rule_it_out_and_the_plan_says_who_did() -> None:
    plan = ruled_out("no smell of gas")
    assert (plan.status, plan.stops) == ("proved", ())
    assert plan.ruled_out == "A. Fell, by telephone: it was the drain"
    (notice,) = [notice for notice in plan.notices if notice.code == "emergency-ruled-out"]
    assert notice.severity == "warning"
    assert notice.message == (
        'smell of gas: the report says "smell of gas"; ruled out: A. Fell, by telephone: it was the drain'
    )


def test_what_was_ruled_out_in_vain_is_still_printed() -> None:
    assert ruled_out(None).ruled_out is not None


def test_the_examples_are_no_emergencies() -> None:
    for job in JOBS:
        assert not stops_for_emergency(planned(job)[1]), job.name


def test_the_example_report_is_answered_with_a_stop_page(root: Path, tmp_path: Path) -> None:
    command = Path(sys.executable).parent / "splitpin"
    report = root / "examples" / "skerrowdale" / "reports" / "smell-of-gas.toml"
    for words in (["plan", report], ["sheet", report, "--out", tmp_path / "page.html"], ["diagnose", report]):
        done = subprocess.run([command, *map(str, words)], capture_output=True, text=True, check=False)
        assert done.returncode == 1
        assert 'error[emergency-reported]: smell of gas: the report says "smell in the kitchen that might be gas"' in (
            done.stderr
        )
    assert "Stop: no work is planned" in (tmp_path / "page.html").read_text(encoding="utf-8")
