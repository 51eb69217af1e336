"""Phases that are taken up again and waits that are stood out, on plans small enough to follow by eye."""

from splitpin.records.plan import Phase, Plan, Step, Times
from splitpin.sheets.press.running import Idle, running


def plan_of(*rows: tuple[Phase, int, int, int]) -> Plan:
    """A plan of steps given as phase, start, hands-on seconds, wait."""
    steps = tuple(
        Step(n=n, phase=phase, action="work", text="Work.", start_s=start, seconds=hands_on, wait_s=wait)
        for n, (phase, start, hands_on, wait) in enumerate(rows, 1)
    )
    return Plan(
        splitpin="0",
        job="j",
        title="t",
        assembly="a",
        assembly_title="a",
        status="proved",
        gap_s=0,
        steps=steps,
        times=Times(hands_on_s=0, waiting_s=0, elapsed_s=0),
        people=1,
    )


def test_wait_is_worked_under_and_the_rest_of_it_stood_out() -> None:
    course = running(plan_of(("make-safe", 0, 60, 600), ("strip", 60, 120, 0), ("strip", 660, 10, 0)))
    assert [line.wait_here for line in course.lines] == [False, False, False]
    assert [line.idle for line in course.lines] == [None, None, Idle(seconds=480, step=1)]


def test_wait_with_nothing_to_do_under_it_is_stood_out_where_it_begins() -> None:
    course = running(plan_of(("make-safe", 0, 60, 600), ("strip", 660, 120, 0)))
    assert course.lines[0].wait_here
    assert course.lines[1].idle is None


def test_tool_picked_up_at_the_end_of_a_wait_leaves_the_wait_its_own() -> None:
    at_once = running(plan_of(("prove", 0, 60, 600), ("prove", 650, 120, 0)))
    assert at_once.lines[0].wait_here
    assert at_once.lines[1].idle is None
    later = running(plan_of(("prove", 0, 60, 600), ("strip", 60, 30, 0), ("prove", 650, 120, 0)))
    assert later.lines[2].idle == Idle(seconds=560, step=1)


def test_what_is_stood_out_is_put_down_to_the_wait_that_ends_last() -> None:
    course = running(
        plan_of(("make-safe", 0, 10, 90), ("strip", 10, 10, 50), ("strip", 20, 10, 0), ("work", 100, 5, 0))
    )
    assert course.lines[3].idle == Idle(seconds=70, step=1)


def test_time_that_no_wait_explains_is_still_said() -> None:
    course = running(plan_of(("strip", 0, 10, 0), ("strip", 40, 10, 0)))
    assert course.lines[1].idle == Idle(seconds=30, step=None)


def test_wait_that_outlasts_the_last_step_is_not_forgotten() -> None:
    course = running(plan_of(("refit", 0, 10, 300), ("hand-over", 10, 60, 0)))
    assert course.rest == Idle(seconds=240, step=1)
    assert running(plan_of(("refit", 0, 10, 300))).rest is None


def test_phase_that_was_left_before_is_said_to_go_on() -> None:
    course = running(plan_of(("strip", 0, 1, 0), ("make-safe", 1, 1, 0), ("strip", 2, 1, 0), ("strip", 3, 1, 0)))
    assert [(line.opens_phase, line.phase_again) for line in course.lines] == [
        (True, False),
        (True, False),
        (True, True),
        (False, False),
    ]


def test_plan_without_steps_has_nothing_to_run() -> None:
    course = running(plan_of())
    assert course.lines == ()
    assert course.rest is None
