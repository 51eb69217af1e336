"""The phrases that paper and terminal share, worked by hand."""

import datetime
from dataclasses import replace

import pytest
from tests.sheets.circulator import PLAN

from splitpin.records.plan import Phase, PlanReading
from splitpin.sheets.press import wording


def test_day_is_the_one_of_the_calendar() -> None:
    # 25 Nov 2026 is a Wednesday, 29 Feb 2028 a Tuesday (any calendar).
    assert wording.day(datetime.date(2026, 11, 25)) == "Wed 25 Nov 2026"
    assert wording.day(datetime.date(2028, 2, 29)) == "Tue 29 Feb 2028"


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ((), ""),
        ((4,), "step 4"),
        ((4, 5), "steps 4–5"),
        ((9, 4, 5, 6, 4), "steps 4–6 and 9"),
        ((1, 3, 5), "steps 1, 3 and 5"),
    ],
)
def test_step_numbers_are_drawn_together(numbers: tuple[int, ...], words: str) -> None:
    assert wording.step_numbers(numbers) == words


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (1.0, 1.5, "1 to 1.5 bar"),
        (1.0, None, "at least 1 bar"),
        (None, 0.004, "at most 0.004 bar"),
        (0.0, 0.0, "0 to 0 bar"),
        (None, None, "for the record"),
    ],
)
def test_limit_is_said_with_its_unit_or_said_to_be_missing(low: float | None, high: float | None, words: str) -> None:
    assert wording.limit_words(PlanReading(id="p", title="pressure", unit="bar", min=low, max=high)) == words


def test_limit_that_should_be_there_and_is_not_is_asked_for() -> None:
    reading = PlanReading(id="p", title="pressure", unit="bar", note=wording.NOT_SET + " (see the plate)")
    assert wording.limit_words(reading) == "limit not set: enter from your standard"
    assert wording.limit_source(reading) == "See the plate"


def test_question_is_answered_yes_or_no() -> None:
    assert wording.limit_words(PlanReading(id="d", title="dry", unit="yes/no")) == "yes or no"


def test_ratio_has_no_unit() -> None:
    reading = PlanReading(id="r", title="CO/CO2", unit="ratio", max=0.004, source="Plant log", note="warm")
    assert wording.limit_words(reading) == "at most 0.004"
    assert wording.limit_source(reading) == "Plant log. Warm"


def test_how_it_was_proved_has_three_phrases() -> None:
    proved = replace(PLAN, status="proved", gap_s=0)
    bounded = replace(PLAN, status="bounded", gap_s=45)
    impossible = replace(PLAN, status="impossible", gap_s=0, steps=())
    said = [wording.how_proved(plan) for plan in (proved, bounded, impossible)]
    assert said == ["order proved best", "best order found, at most 45 s from best", "proved impossible"]


def test_job_impossible_as_asked_says_how_the_rest_was_ordered() -> None:
    rest = replace(PLAN, status="impossible", gap_s=0)
    assert wording.how_proved(rest) == "proved impossible as asked; for the rest, order proved best"


def test_seal_that_an_inspection_decides_is_at_hand_not_new() -> None:
    step = next(step for step in PLAN.steps if step.seals)
    assert wording.seal_words(PLAN, step) == ("New: head O-ring", "At hand: 2 × spacer seal")


def test_control_characters_are_shown_not_obeyed() -> None:
    assert wording.visible("\x1b[2J\x07\x7f\x9b\r\n\tä") == "␛[2J␇␡�␍\n\tä"


def test_only_an_id_is_spoken_as_words() -> None:
    assert wording.spoken("terminal-side") == "terminal side"
    assert wording.spoken("hexagon key 5 mm, long-arm") == "hexagon key 5 mm, long-arm"


def test_every_phase_stage_and_word_of_the_contract_has_its_words() -> None:
    from typing import get_args, get_type_hints

    from splitpin.records.plan import PlanPart, PlanProof, Word

    assert tuple(wording.PHASES) == get_args(Phase)
    assert sorted(wording.WORDS) == sorted(get_args(Word))
    assert tuple(wording.STAGES) == get_args(get_type_hints(PlanProof)["stage"])
    assert tuple(wording.PART_KINDS) == get_args(get_type_hints(PlanPart)["kind"])


def test_torque_is_said_once() -> None:
    (step,) = [step for step in PLAN.steps if step.torque_nm is not None]
    assert wording.torque_words(step) == "Tighten to 9 N·m"
    assert wording.torque_words(replace(step, text="Go once round all 4 to 9 N·m.")) is None
    assert wording.torque_words(replace(step, torque_nm=None)) is None
