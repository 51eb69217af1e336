"""The time line: every second the same length, nothing drawn over anything else."""

from dataclasses import replace
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from tests.sheets.circulator import PLAN

from splitpin.records.plan import Plan, Step
from splitpin.sheets.step_sheet.timeline import time_line

LABEL = 70.0  # drawing units; "step 100" in 15-unit letters is about 65 wide


def test_hands_on_time_of_the_drawing_is_that_of_the_plan() -> None:
    strip = time_line(PLAN)
    assert strip is not None
    full = float(strip.right) - float(strip.left)
    drawn = sum(float(bar.width) for bar in strip.busy)
    assert abs(drawn / full - PLAN.times.hands_on_s / PLAN.times.elapsed_s) < 0.001
    assert [label.text for label in strip.wait_labels] == ["step 2", "step 6", "step 12"]
    assert [tick.text for tick in strip.ticks] == ["0", "10 min", "20 min", "30 min", "40 min", "50 min", "1 h 00 min"]


def test_plan_without_steps_has_no_time_line() -> None:
    assert time_line(replace(PLAN, steps=())) is None


@given(st.lists(st.tuples(st.integers(0, 900), st.sampled_from([0, 0, 0, 30, 600, 3600])), min_size=1, max_size=30))
def test_waits_and_their_labels_never_cross_in_one_lane(rows: list[tuple[int, int]]) -> None:
    steps: list[Step] = []
    start = 0
    for n, (seconds, wait) in enumerate(rows, 1):
        steps.append(Step(n=n, phase="work", action="work", text="Work.", start_s=start, seconds=seconds, wait_s=wait))
        start += seconds
    times = replace(PLAN.times, elapsed_s=start)
    plan: Plan = replace(PLAN, steps=tuple(steps), times=times)
    strip = time_line(plan)
    if strip is None:
        assert start == 0 and not any(step.wait_s for step in steps)
        return
    lanes: dict[str, float] = {}
    for bar, label in zip(strip.waits, strip.wait_labels, strict=True):
        left, right = float(bar.x), float(bar.x) + float(bar.width)
        label_left = float(label.x) - (0 if label.anchor == "start" else LABEL)
        assert min(left, label_left) >= lanes.get(bar.y, 0.0) - 0.2, "a wait or its label runs into the one before it"
        lanes[bar.y] = max(right, label_left + LABEL)
        assert lanes[bar.y] <= 1000
    for tick, later in pairwise(strip.ticks):
        tick_right = float(tick.x) + (LABEL / 2 if tick.anchor == "middle" else 0)
        assert tick_right <= float(later.x) - (LABEL / 2 if later.anchor == "middle" else LABEL)
    for bar, following in pairwise(strip.busy):
        assert float(bar.x) + float(bar.width) <= float(following.x) + 0.2
