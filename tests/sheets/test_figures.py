"""The figures of the step sheet: the removal map and the position map, by rules that can be checked on the paper."""

import random
import re
from itertools import pairwise
from pathlib import Path

import pytest
from tests.examples import JOBS, planned

from splitpin.records.plan import Opened, OpenedComponent, Plan, Step, Times
from splitpin.sheets.step_sheet.position_map import position_map
from splitpin.sheets.step_sheet.removal_map import RemovalMap, layers, reduced, removal_map


def plan_with(after: dict[str, tuple[str, ...]], steps: tuple[Step, ...] = ()) -> Plan:
    rows = tuple(
        OpenedComponent(id=name, title=f"the {name}", ends="out", after=before) for name, before in after.items()
    )
    return Plan(
        splitpin="0",
        job="J",
        title="t",
        assembly="a",
        assembly_title="a",
        status="proved",
        gap_s=0,
        opened=Opened(components=rows),
        steps=steps,
        times=Times(hands_on_s=0, waiting_s=0, elapsed_s=0),
        people=1,
    )


def random_order(chance: random.Random) -> dict[str, tuple[str, ...]]:
    names = [f"part-{n}" for n in range(chance.randint(2, 24))]
    return {
        name: tuple(sorted(chance.sample(names[:at], chance.randint(0, min(at, 3))))) for at, name in enumerate(names)
    }


def points(edge: str) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for letter, numbers in re.findall(r"([MLV])([-0-9. ]+)", edge):
        values = [float(value) for value in numbers.split()]
        found.append((found[-1][0], values[0]) if letter == "V" else (values[0], values[1]))
    return found


def check_drawing(drawn: RemovalMap) -> None:
    """Edges run downward only, no edge enters a box, no two boxes touch, everything is on the paper."""
    width, height = float(drawn.box_width), float(drawn.box_height)
    corners = [(float(box.x), float(box.y)) for box in drawn.boxes]
    for left, top in corners:
        assert left >= 0 and left + width <= float(drawn.width) and top + height <= float(drawn.height)
    for at, (left, top) in enumerate(corners):
        for other_left, other_top in corners[at + 1 :]:
            assert abs(left - other_left) >= width or abs(top - other_top) >= height
    for edge in drawn.edges:
        path = points(edge)
        for (x1, y1), (x2, y2) in pairwise(path):
            assert y2 > y1
            for left, top in corners:
                for part in range(1, 40):
                    x, y = x1 + (x2 - x1) * part / 40, y1 + (y2 - y1) * part / 40
                    assert not (left < x < left + width and top < y < top + height)


def test_a_lid_stands_above_the_two_that_follow_it() -> None:
    drawn = removal_map(plan_with({"lid": (), "pump": ("lid",), "fan": ("lid",)}))
    assert drawn is not None
    lid, pump, fan = drawn.boxes
    assert float(lid.y) < float(pump.y) == float(fan.y)
    assert len(drawn.edges) == 2
    check_drawing(drawn)


def test_lines_that_others_already_say_are_left_out() -> None:
    assert reduced({"a": (), "b": ("a",), "c": ("a", "b")}) == {"a": (), "b": ("a",), "c": ("b",)}


def test_one_component_needs_no_map() -> None:
    assert removal_map(plan_with({"lid": ()})) is None


@pytest.mark.parametrize("seed", range(60))
def test_every_drawing_keeps_the_rules(seed: int) -> None:
    after = random_order(random.Random(seed))
    level = layers(after)
    assert all(level[one] < level[name] for name, before in after.items() for one in before)
    assert max(list(level.values()).count(n) for n in set(level.values())) <= 5
    drawn = removal_map(plan_with(after))
    assert drawn is not None
    check_drawing(drawn)
    assert drawn == removal_map(plan_with(after))


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_the_map_of_each_example_says_what_its_steps_do(path: Path) -> None:
    plan, _ = planned(path)
    taken = {step.component: step.n for step in plan.steps if step.action == "take"}
    for row in plan.opened.components:
        for before in row.after:
            assert taken[before] < taken[row.id]
    drawn = removal_map(plan)
    if drawn is not None:
        check_drawing(drawn)


def test_a_long_name_stays_in_its_box() -> None:
    drawn = removal_map(plan_with({"x" * 70: (), "y": ("x" * 70,)}))
    assert drawn is not None
    letters = float(drawn.box_width) / 18 / 0.6  # letters of 18 units, of which wide ones take 0.6 (from memory)
    assert all(len(text) <= letters for box in drawn.boxes for _, text in box.lines)
    assert len(drawn.boxes[0].lines) <= 3


def step(n: int, start: int, seconds: int, position: str | None) -> Step:
    return Step(n=n, phase="strip", action="undo", text="x", seconds=seconds, start_s=start, position=position)


def test_stays_are_drawn_in_the_lane_of_their_position() -> None:
    steps = (step(1, 0, 60, "front"), step(2, 60, 120, "underside"), step(3, 180, 30, None), step(4, 210, 30, "front"))
    drawn = position_map(plan_with({}, steps))
    assert drawn is not None
    assert [lane.title for lane in drawn.lanes] == ["front", "underside"]
    assert [len(lane.bars) for lane in drawn.lanes] == [2, 1]
    # 972 units for 240 s: 60 s are 243, and the underside lasts 150 s
    assert [float(bar.width) for lane in drawn.lanes for bar in lane.bars] == [243, 121.5, 607.5]
    assert drawn.changes == "2 changes of position"


def test_one_place_needs_no_position_map() -> None:
    assert position_map(plan_with({}, (step(1, 0, 60, "front"), step(2, 60, 5, None)))) is None
