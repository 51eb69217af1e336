"""What a plan says of its choice, and what it says when there is none."""

import pytest
from tests.examples import JOBS, planned
from tests.planning.small_plant import ASSEMBLY, JOB, visit

from splitpin.planning import plan_visit
from splitpin.records.plan import plan_json

HEAD = JOB[: JOB.index("[[task]]")]
LOOK = '[[task]]\ndo = "inspect"\ncomponent = "block"\n'


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_work_and_set_up_are_the_hands_on_time_and_the_least_is_what_is_proved(path: object) -> None:
    plan, _ = planned(path)
    if not plan.steps:
        return
    choice = plan.choice
    assert choice is not None
    assert choice.work_s + choice.setup_s == plan.times.hands_on_s
    assert choice.cost_s <= plan.times.hands_on_s
    assert choice.least_s + plan.gap_s == plan.times.elapsed_s
    if choice.next is not None:
        assert not {*choice.next.opens} & {*choice.next.spares}


def test_the_next_best_opening_is_told_with_what_it_opens_and_spares() -> None:
    rows = [
        plan.choice.next for plan, _ in map(planned, JOBS) if plan.choice is not None and plan.choice.next is not None
    ]
    assert rows and all(row.opens or row.spares or row.more_s for row in rows)
    lockout, _ = planned(next(path for path in JOBS if path.stem == "boiler-lockout"))
    assert lockout.choice is not None and lockout.choice.next is not None
    assert "the gas train out" in lockout.choice.next.opens
    assert '"choice"' in plan_json(lockout)


def test_of_a_rival_that_cannot_win_nothing_is_told() -> None:
    plan = plan_visit(visit(HEAD + LOOK)).plan
    assert plan.choice is not None and plan.choice.tried == 1 and plan.choice.next is None
    assert '"next"' not in plan_json(plan)


def test_a_circle_is_told_once_without_a_thing_that_waits_for_itself() -> None:
    ring = ASSEMBLY.replace(
        'undoes = ["tray-latch"], behind = ["casing"]', 'undoes = ["tray-latch"], behind = ["block"]'
    )
    plan = plan_visit(visit(HEAD + LOOK, assembly=ring.replace('needs = "exposed"', 'needs = "out"'))).plan
    told = [notice.message for notice in plan.notices if notice.code == "cycle"]
    assert plan.status == "impossible" and len(told) == 1
    assert "the control tray waits for the pump block" in told[0]
    assert "the pump block waits for the pump block" not in told[0]


def test_what_has_no_way_out_is_said_to_have_none() -> None:
    job = HEAD + '[[task]]\ndo = "inspect"\ncomponent = "tray"\n'
    work = '[component.work.inspect]\nneeds = "out"\nmin = { low = 1, mode = 1, high = 1 }\nbasis = "from memory"\n'
    block = '[[component]]\nid = "block"'
    plan = plan_visit(visit(job, assembly=ASSEMBLY.replace(block, work + block))).plan
    assert [notice.message for notice in plan.notices] == ["the control tray has no way right out"]
