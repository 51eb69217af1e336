"""Safety messages stand before the step they guard, gravest first, and come again only after a release.

The rule and the order stand in the trade reference beside this checkout, section 4.1 (signal words of ANSI Z535 as
quoted there, S40 to S45; the rule of repetition is marked common practice there).
"""

from dataclasses import replace
from pathlib import Path

import pytest
from tests.bundled import LIBRARY
from tests.examples import JOBS, planned

from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.planning.written.messages import WORDS
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import Plan, Step, StepCaution

FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
        "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
    }
)


def visit(assembly: str, do: str, component: str) -> Visit:
    head = {"reference": "T", "title": "-", "assembly": assembly, "people": 2}
    task = {"do": do, "component": component}
    return Visit(JobFile.model_validate({"format": 1, "job": head, "task": [task]}), FIRM, LIBRARY)


def said(plan: Plan, caution: str) -> list[Step]:
    return [step for step in plan.steps if any(one.id == caution for one in step.cautions)]


def released(plan: Plan, *conditions: str) -> list[int]:
    return [step.n for step in plan.steps if step.action == "release" and step.condition in conditions]


MEMBRANE = visit("expansion-vessel", "replace", "membrane")
GAS_VALVE = visit("wall-hung-combination-heater", "replace", "gas-valve")


def test_a_message_is_told_once_as_long_as_its_state_holds() -> None:
    plan = plan_visit(MEMBRANE).plan
    (first,) = said(plan, "charged-vessel")  # the flange is opened and closed under one let-down charge
    assert first.phase == "make-safe"
    assert first.n < min(step.n for step in plan.steps if step.joint == "flange-bolts")


def test_a_message_is_told_again_once_its_state_is_released() -> None:
    plan = plan_visit(MEMBRANE).plan
    first, again = said(plan, "hot-water")
    back = released(plan, "vessel-shut-off")
    assert first.n < min(back) <= max(back) < again.n
    assert (again.phase, again.proof) == ("prove", "hot-pressure-check")


def test_a_heavy_part_is_told_of_before_its_last_fixings_are_undone() -> None:
    plan = plan_visit(visit("expansion-vessel", "replace", "vessel")).plan
    (told,) = said(plan, "heavy-part")
    assert (told.action, told.joint) == ("undo", "foot-bolts")


def test_hazard_behind_a_guard_is_told_of_before_its_screws_are_undone() -> None:
    plan = plan_visit(visit("roof-extract-fan", "replace", "belt")).plan
    (told,) = said(plan, "rotating-parts")
    assert (told.action, told.joint) == ("undo", "belt-guard-screws")


def test_straps_of_lagging_that_two_lifts_need_come_off_in_one_go_with_it() -> None:
    plan = plan_visit(visit("circulator-twin-head", "replace", "pump")).plan
    (straps,) = (step.n for step in plan.steps if step.action == "undo" and step.joint == "lagging-straps")
    (off,) = (step.n for step in plan.steps if step.action == "take" and step.component == "lagging")
    assert off == straps + 1


def test_hazard_of_a_part_that_leaves_at_the_bench_is_told_there() -> None:
    assembly = LIBRARY.assemblies["floor-standing-boiler"]
    (wheel,) = (row for row in assembly.component if row.title == "burner fan wheel")
    marked = wheel.model_copy(update={"cautions": ("static-damage",)})  # any that nothing else here brings
    rows = tuple(marked if row.id == wheel.id else row for row in assembly.component)
    own = replace(LIBRARY, assemblies={assembly.assembly.id: assembly.model_copy(update={"component": rows})})
    asked = replace(visit("floor-standing-boiler", "replace", "fan-motor"), library=own)
    plan = plan_visit(asked).plan
    (told,) = said(plan, "static-damage")
    assert told.position == "bench"
    assert told.n <= min(step.n for step in plan.steps if step.action == "take" and step.component == wheel.id)
    assert check_plan(plan, asked) == ()


def test_escaping_gas_is_told_of_again_when_the_gas_is_back() -> None:
    plan = plan_visit(GAS_VALVE).plan
    first, again = said(plan, "gas-escape")
    back = released(plan, "gas-isolated")
    assert first.n < min(back) <= max(back) < again.n
    assert again.phase == "prove"


def test_a_hazard_that_no_state_keeps_away_is_told_once() -> None:
    for told in (MEMBRANE, GAS_VALVE):
        plan = plan_visit(told).plan
        for caution in ("part-drops", "sharp-edges"):
            assert len(said(plan, caution)) <= 1


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_messages_stand_gravest_first_at_the_front_and_at_every_step(job: Path) -> None:
    plan, _ = planned(job)
    for cautions in (plan.cautions, *(step.cautions for step in plan.steps)):
        words = [WORDS.index(caution.word) for caution in cautions]
        assert words == sorted(words)
    met = list(dict.fromkeys(caution.id for step in plan.steps for caution in step.cautions))
    for word in WORDS:  # within one word, as the steps meet them
        own = [caution.id for caution in plan.cautions if caution.word == word]
        assert own == [name for name in met if name in own]
    assert {caution.id for caution in plan.cautions} == set(met)


def test_a_message_says_hazard_consequence_and_how_to_avoid_it_in_this_order() -> None:
    plan = plan_visit(MEMBRANE).plan
    row = LIBRARY.cautions["charged-vessel"]
    text = said(plan, row.id)[0].cautions[0].text
    assert row.consequence is not None
    places = [text.index(words.rstrip(".")) for words in (row.hazard, row.consequence, *row.avoid)]
    assert places == sorted(places) and places[0] == 0


def test_every_message_about_people_says_what_follows_and_how_to_avoid_it() -> None:
    # IEC/IEEE 82079-1 as summarised in the trade reference, S46: hazard, consequence, how to avoid it.
    for row in LIBRARY.cautions.values():
        assert row.avoid, row.id
        assert row.consequence is not None or row.word == "NOTICE", row.id


def test_the_word_agrees_with_what_may_follow() -> None:
    # ANSI Z535 as quoted in the trade reference, S40: DANGER will, WARNING could kill or injure seriously.
    for row in LIBRARY.cautions.values():
        if row.word == "DANGER":
            assert row.consequence is not None and " will " in f" {row.consequence} ", row.id
        if row.word == "NOTICE":
            assert not {"injure", "kill", "burn", "scald"} & set((row.consequence or "").lower().split()), row.id


# The independent check sees both mistakes.


def changed(plan: Plan, n: int, cautions: tuple[StepCaution, ...]) -> Plan:
    steps = [replace(step, cautions=cautions) if step.n == n else step for step in plan.steps]
    return replace(plan, steps=tuple(steps))


def test_the_check_misses_a_message_that_is_not_told_again() -> None:
    plan = plan_visit(MEMBRANE).plan
    again = said(plan, "hot-water")[1]
    silent = changed(plan, again.n, tuple(one for one in again.cautions if one.id != "hot-water"))
    assert [(fault.step, fault.rule) for fault in check_plan(silent, MEMBRANE)] == [(again.n, "caution-missing")]


def test_the_check_finds_a_message_that_is_told_again_for_nothing() -> None:
    plan = plan_visit(MEMBRANE).plan
    (first,) = said(plan, "charged-vessel")
    bolts = next(step for step in plan.steps if step.joint == "flange-bolts" and step.action == "undo")
    message = next(one for one in first.cautions if one.id == "charged-vessel")
    talkative = changed(plan, bolts.n, (message, *bolts.cautions))
    assert [(fault.step, fault.rule) for fault in check_plan(talkative, MEMBRANE)] == [(bolts.n, "law-30")]
