"""The plan as text: it keeps to its width, leaves nothing out, and moves no cursor."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.sheets.circulator import PLAN, STEPS

from splitpin.sheets.step_sheet.terminal import plan_text


@pytest.mark.parametrize("width", [40, 60, 80, 132])
@pytest.mark.parametrize("why", [False, True])
def test_no_line_is_wider_than_the_terminal(width: int, why: bool) -> None:
    assert max(len(line) for line in plan_text(PLAN, width, why=why).splitlines()) <= width


def test_narrower_than_forty_columns_is_taken_as_forty() -> None:
    assert plan_text(PLAN, 1) == plan_text(PLAN, 40)


def test_every_step_stands_there_once_and_in_order() -> None:
    text = " ".join(plan_text(PLAN, 400).split())
    places = [text.index(f"{step.n} {step.text}") for step in STEPS]
    assert places == sorted(places)


def test_safety_message_comes_before_the_step_it_guards() -> None:
    text = " ".join(plan_text(PLAN, 400).split())
    for step in STEPS:
        for caution in step.cautions:
            assert text.index(f"! {caution.word}: {caution.text}") < text.index(f"{step.n} {step.text}")


def test_reasons_are_given_only_where_they_are_asked_for() -> None:
    assert "because" not in plan_text(PLAN)
    said = " ".join(plan_text(PLAN, 400, why=True).split())
    rows = [row.because for row in PLAN.steps]
    rows += [row.because for row in PLAN.tools]
    rows += [row.because for row in PLAN.parts]
    rows += [row.because for row in PLAN.proofs]
    rows += [row.because for row in PLAN.conditions]
    rows += [row.because for row in PLAN.licences]
    for reason in [reason for because in rows for reason in because]:
        assert f"because {reason}" in said


def test_impossible_plan_says_so_and_has_no_steps() -> None:
    nothing = replace(PLAN, status="impossible", steps=(), parts=(), tools=(), proofs=())
    text = plan_text(nothing)
    assert "Proved impossible." in text
    assert "STRIP" not in text


@given(st.text(min_size=1, max_size=300))
def test_no_text_of_a_job_moves_the_cursor(hostile: str) -> None:
    step = replace(STEPS[0], text=hostile, record=hostile)
    text = plan_text(replace(PLAN, steps=(step,), title=hostile, job=hostile))
    assert all(character == "\n" or character.isprintable() or ord(character) > 0x9F for character in text)
