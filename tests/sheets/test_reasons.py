"""The page of reasons: nothing told twice, nothing left out."""

from dataclasses import replace

from tests.sheets.circulator import PLAN, STEPS

from splitpin.sheets.step_sheet.reasons import Reason, reasons


def test_chain_that_runs_into_one_already_told_says_where_it_goes_on() -> None:
    chains = (("a", "c", "d"), ("b", "c", "d"), ("b", "c", "d"), ("d",), ())
    steps = tuple(replace(step, because=chain) for step, chain in zip(STEPS, chains, strict=False))
    told = reasons(replace(PLAN, steps=steps, conditions=(), licences=(), parts=(), proofs=()))
    assert told == (
        Reason(subject="Step 1", lines=("a", "c", "d")),
        Reason(subject="Steps 2–3", lines=("b", "then as under step 1")),
        Reason(subject="Step 4", lines=("d",)),
    )


def test_thing_whose_reasons_its_steps_have_told_is_not_told_again() -> None:
    told = [reason.subject for reason in reasons(PLAN)]
    assert told[:3] == ["Steps 1–2", "Steps 3–4", "Step 6"]
    same = replace(PLAN.proofs[0], because=STEPS[0].because)
    other = [reason.subject for reason in reasons(replace(PLAN, proofs=(same,)))]
    assert "Water tightness of what was opened" in told
    assert "Water tightness of what was opened" not in other
