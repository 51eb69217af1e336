"""Emergencies: asked of every caller, told by the words of any job; each answer rules in or out its own and no other.

Which words count is our own choice (common practice of a repair desk, no source); the sentences are our own.
"""

import datetime
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
from tests.planning.emergency_reports import Told, halves, later

from splitpin.planning import plan_visit
from splitpin.planning.asked.emergency import intake, stops_for_emergency
from splitpin.planning.check import check_plan
from splitpin.planning.check.emergency import emergencies
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit

ASSEMBLY = "wall-hung-combination-heater"
GAS, CO, FIRE, SHOCK, STEAM, HURT = (
    "gas-escape",
    "carbon-monoxide",
    "fire-or-smoke",
    "shock-or-wet-electrics",
    "boiling-or-bursting",
    "hurt-or-falling",
)
EVERY = sorted((GAS, CO, FIRE, SHOCK, STEAM, HURT))
ASKED = {"by": "the office", "how": "by telephone", "at": datetime.datetime(2027, 1, 5, 8, 30)}
WHO = "the office, by telephone, 2027-01-05 08:30"


def firm(**numbers: str) -> FirmFile:
    return FirmFile.model_validate(
        {
            "format": 1,
            "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
            "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
            "emergency_numbers": numbers,
        }
    )


def visit(report: str | None = None, *, job: dict[str, object] | None = None, **tables: object) -> Visit:
    head = {"reference": "T", "title": "no heat", "assembly": ASSEMBLY, "report": report, **(job or {})}
    tasks = [{"do": "replace", "component": "pump-head"}]
    return Visit(JobFile.model_validate({"format": 1, "job": head, "task": tasks, **tables}), firm(), LIBRARY)


def asked(**answers: str) -> dict[str, object]:
    """No to every question but those given."""
    return {
        **ASKED,
        "answers": dict.fromkeys(EVERY, "no") | {key.replace("_", "-"): row for key, row in answers.items()},
    }


def found(report: str) -> set[str]:
    told = visit(report)
    ids = {one.emergency.id for one in intake(told).spoken}
    assert ids == emergencies(told)  # the independent check reads the same
    return ids


@pytest.mark.parametrize(
    ("report", "expected"),
    [
        ("There is a smell of gas in the kitchen.", {GAS}),
        ("A slight smell, we think it might be gas", {GAS}),
        ("gas\u2011leak!", {GAS}),  # a non-breaking hyphen
        ("t'boiler stinks o' gaaas", {GAS}),
        ("Es riecht nach Gas", {GAS}),
        ("Huele a gas en la cocina", {GAS}),
        ("No heating, smell of gas in the hall", {GAS}),  # "no" ends with its clause
        ("Gas meter changed on Monday, now it smells of gas", {GAS}),  # the expression is passed over, not the text
        ("Gas leak last year, and again since Monday", {GAS}),
        ("The boiler was serviced last year and smells of gas", {GAS}),
        ("He is not breathing", {HURT}),  # a "no" that is itself the danger
        ("Not sure whether it smells of gas", {GAS}),
        ("the C.O. alarm beeps", {CO}),
        ("Headaches whenever the heater runs, and he feels quite sick", {CO}),
        ("lazy yellow flame", {CO}),
        ("Water is dripping on the electrics", {SHOCK}),
        ("burning smell from the fan", {FIRE}),
        ("the plug has melted", {FIRE}),
        ("I got a shock off the pipe", {SHOCK}),
        ("Steam at the tundish", {STEAM}),
        ("The pressure gauge is at 4 bar and rising", {STEAM}),
        ("Unconcious in the boiler room", {HURT}),  # as typed in haste
    ],
)
def test_the_words_are_found(report: str, expected: set[str]) -> None:
    assert found(report) == expected


@pytest.mark.parametrize(
    "report",
    [
        "Gas fire in the lounge works, radiators stay cold.",
        "Smells of drains near the sink. The heater is a gas one, twelve years old, serviced last spring.",
        "No smell of gas.",
        "Es riecht nicht nach Gas, kein Rauch",
        "No huele a gas, sin humo",
        "A gas leak last year, repaired since",
        "Years ago, there was a burning smell",
        "Heater in the old fire station; smoke test at the service; the gas meter was read",
        "The pressure gauge shows 0.4 bar",
        "Exploded view of the pump wanted",
        "No hot water, display shows a fault.",
        "Sparks but does not light.",
        "",
    ],
)
def test_a_usual_report_is_no_emergency(report: str) -> None:
    assert found(report or "-") == set()


def share(told: list[Told]) -> float:
    return sum(bool(found(one.report)) for one in told) / len(told)


@pytest.mark.parametrize("half", [0, 1], ids=["learn", "unseen"])
def test_of_four_hundred_reports_nine_in_ten_true_ones_stop_and_few_harmless_ones(half: int) -> None:
    told = halves()[half]
    assert len(told) >= 190
    assert share([one for one in told if one.emergency]) >= 0.97  # aim 0.90; measured 1.00 and 1.00
    assert share([one for one in told if not one.emergency]) <= 0.03  # aim 0.08; measured 0.00 and 0.00


def test_the_emergency_that_is_named_is_the_right_one() -> None:
    told = [one for half in halves() for one in half if one.emergency]
    assert sum(one.emergency in found(one.report) for one in told) / len(told) >= 0.97


def test_reports_written_later_are_told_apart_too() -> None:
    true = [report for is_one, report in later() if is_one]
    harmless = [report for is_one, report in later() if not is_one]
    assert sum(bool(found(report)) for report in true) / len(true) >= 0.97
    assert sum(bool(found(report)) for report in harmless) / len(harmless) <= 0.05


def test_only_the_symptoms_that_name_an_emergency_are_such_words() -> None:
    stopped = set()
    for assembly, symptom in itertools.chain.from_iterable(
        ((name, row.id) for row in record.symptom) for name, record in LIBRARY.assemblies.items()
    ):
        head = {"reference": "T", "title": "-", "assembly": assembly, "symptoms": [symptom]}
        if intake(Visit(JobFile.model_validate({"format": 1, "job": head}), firm(), LIBRARY)).spoken:
            stopped.add((assembly, symptom))
    assert stopped == {("floor-standing-boiler", "soot-or-smell")}  # it names a CO alarm


@pytest.mark.parametrize(
    ("told", "where"),
    [
        (visit(job={"title": "Gas leak at heater"}), "the title"),
        (visit(site={"notes": "Tenant says: smell of gas"}), "a note on the site"),
        (visit(site={"access": "gas smell in the hall"}), "the access to the site"),
        (visit(site={"name": "House with the gas leak"}), "the name of the site"),
        (visit(site={"contact": "The tenant, smells gas"}), "the contact"),
        (visit(task=[{"do": "replace", "component": "pump-head", "note": "smells of gas"}]), "a note on a task"),
    ],
)
def test_every_text_of_the_job_is_read(told: Visit, where: str) -> None:
    (one,) = intake(told).spoken
    assert (one.emergency.id, one.where) == (GAS, where)


def test_nothing_is_planned_and_the_page_says_what_to_do() -> None:
    told = visit("Smell of gas, and the CO alarm sounds")
    plan = plan_visit(told).plan
    assert (plan.status, plan.steps, plan.tasks, plan.parts) == ("impossible", (), (), ())
    assert {stop.id: stop.words for stop in plan.stops} == {GAS: "Smell of gas", CO: "CO alarm sounds"}
    gas = next(stop for stop in plan.stops if stop.id == GAS)
    assert gas.do == LIBRARY.emergencies[GAS].do and gas.origin == LIBRARY.emergencies[GAS].origin
    assert [(notice.code, notice.severity) for notice in plan.notices] == [("emergency-reported", "error")] * 2
    assert check_plan(plan, told) == ()


def test_a_number_is_printed_only_where_the_firm_gives_one() -> None:
    told = visit("smell of gas")
    assert [stop.call for stop in plan_visit(told).plan.stops] == ["enter your gas emergency number in firm.toml"]
    known = Visit(told.job, firm(gas="01632 960 199"), LIBRARY)
    assert [stop.call for stop in plan_visit(known).plan.stops] == ["gas emergency number: 01632 960 199"]


def test_nobody_is_told_to_touch_a_switch_or_a_lift_where_gas_is_smelt() -> None:
    """Between the lines of an emergency with gas, switches stand only where they are forbidden."""
    for line in LIBRARY.emergencies[GAS].do:
        for word in ("switch", "lift", "bell", "flame", "telephone"):
            assert word not in line or re.search(r"\b(no|not|Use no)\b", line), line


@pytest.mark.parametrize(
    "told", [{"report": "No heat, boiler silent."}, {"symptoms": ["flame-lost"]}], ids=["report", "symptom"]
)
def test_a_caller_whom_nobody_asked_is_answered_with_the_questions(told: dict[str, object]) -> None:
    job = visit(job=told)
    plan = plan_visit(job).plan
    assert plan.status == "impossible" and plan.steps == ()
    assert [(stop.id, stop.question, stop.words) for stop in plan.stops] == [
        (name, LIBRARY.emergencies[name].question, "") for name in EVERY
    ]
    (notice,) = plan.notices
    assert (notice.code, notice.severity) == ("emergency-not-asked", "error")
    assert all(name in notice.message for name in EVERY)
    assert check_plan(plan, job) == ()


def test_only_the_questions_without_an_answer_are_asked_again() -> None:
    answers = asked()
    answers["answers"] = dict.fromkeys((GAS, CO, FIRE), "no")
    assert [stop.id for stop in plan_visit(visit("No heat", asked=answers)).plan.stops] == sorted((SHOCK, STEAM, HURT))


def test_tasks_without_a_caller_need_no_answers() -> None:
    plan = plan_visit(visit()).plan
    assert (plan.status, plan.stops, plan.ruled_out) == ("proved", (), None)


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("answer", ["yes", "unsure"])
def test_each_answer_rules_in_its_own_emergency_and_no_other(name: str, answer: str) -> None:
    told = visit("No heat", asked=asked(**{name: answer}))
    plan = plan_visit(told).plan
    assert [(stop.id, stop.words) for stop in plan.stops] == [(name, answer)]
    assert plan.ruled_out is not None and LIBRARY.emergencies[name].title.lower() not in plan.ruled_out
    assert check_plan(plan, told) == ()


@pytest.mark.parametrize("name", EVERY)
def test_each_no_rules_out_its_own_emergency_and_no_other(name: str) -> None:
    words = "Smell of gas, CO alarm sounding, smoke, an electric shock, steam at the tundish, somebody hurt"
    told = visit(words, asked={**ASKED, "answers": {name: "no"}})
    assert [stop.id for stop in plan_visit(told).plan.stops] == [other for other in EVERY if other != name]


def test_a_no_to_every_question_is_planned_and_says_who_asked() -> None:
    told = visit("No smell of gas. There was some smoke.", asked=asked())
    plan = plan_visit(told).plan
    assert (plan.status, plan.stops) == ("proved", ())
    assert plan.ruled_out is not None and plan.ruled_out.startswith(f"{WHO}: no to ")
    assert all(LIBRARY.emergencies[name].title.lower() in plan.ruled_out for name in EVERY)
    (notice,) = [notice for notice in plan.notices if notice.code == "emergency-ruled-out"]
    assert notice.severity == "warning"
    assert notice.message == f'fire, smoke or a burning smell: the report says "smoke"; ruled out by {WHO}'
    assert check_plan(plan, told) == ()


WORDS = sorted(
    {
        part.strip("*")
        for row in LIBRARY.wordings.values()
        for text in (*row.words, *row.not_in)
        for part in text.split("-")
        if part.strip("*")
    }
)


@given(
    st.lists(st.sampled_from(WORDS), max_size=14),
    st.lists(st.sampled_from([" ", " ", " ", ", ", "-", ". ", " / ", "'"]), min_size=14),
)
def test_the_independent_check_finds_the_same_in_any_row_of_words(row: list[str], gaps: list[str]) -> None:
    found("".join(word + gap for word, gap in zip(row, gaps, strict=False)) or "-")


@given(st.sampled_from([word for word in WORDS if len(word) > 5]), st.data())
def test_the_independent_check_finds_the_same_slips(word: str, data: st.DataObject) -> None:
    at, letter = data.draw(st.integers(0, len(word))), data.draw(st.sampled_from("aest"))
    found(f"{word[:at]}{letter}{word[at:]} {word[:at]}{word[at + 1 :]} {word[:at]}{letter}{word[at + 1 :]}")


def test_the_check_refuses_a_plan_that_was_made_all_the_same() -> None:
    quiet = visit()
    plan, told = plan_visit(quiet).plan, visit("smell of gas")
    assert plan.steps and check_plan(plan, quiet) == ()
    assert {fault.rule for fault in check_plan(plan, told)} == {"emergency"}
    assert {fault.rule for fault in check_plan(plan, visit("No heat"))} == {"emergency"}
    assert {fault.rule for fault in check_plan(plan, visit("No heat", asked=asked(gas_escape="yes")))} == {"emergency"}
    assert {fault.rule for fault in check_plan(plan_visit(told).plan, quiet)} == {"emergency"}


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
