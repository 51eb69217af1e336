"""What is closed to the engineer is not opened on the way of another task; the task is refused with what is closed."""

import pytest
from tests.planning.small_plant import ASSEMBLY, JOB, visit

from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.records.plan import Plan

HEAD = JOB[: JOB.index("[[task]]")]
WORK = """[component.work.inspect]
needs = "out"
min = { low = 1, mode = 1, high = 1 }
basis = "from memory"
"""
LEAD = """
[[joint]]
id = "badge-lead"
between = ["badge", "block"]
hardware = "plug"
position = "front"
"""
BADGE = 'title = "badge"\nrole = "badge"\nposition = "front"\n'


def closed(name: str, more: str = "") -> str:
    return ASSEMBLY.replace(f'id = "{name}"\ntitle', f'id = "{name}"\nclosed_to = "electrician"{more}\ntitle')


def planned(assembly: str, *tasks: tuple[str, str]) -> Plan:
    rows = "".join(f'[[task]]\ndo = "{do}"\ncomponent = "{component}"\n' for do, component in tasks)
    asked = visit(HEAD + rows, assembly=assembly)
    plan = plan_visit(asked).plan
    assert check_plan(plan, asked) == ()
    return plan


@pytest.mark.parametrize("name", ["tray", "block", "casing"])
def test_a_task_behind_or_inside_what_is_closed_is_refused_and_the_rest_is_planned(name: str) -> None:
    assembly = closed(name).replace(BADGE, BADGE + WORK)
    plan = planned(assembly, ("replace", "sensor"), ("inspect", "badge"))
    titles = {"tray": "control tray", "block": "pump block", "casing": "casing"}
    reason = f"it opens the {titles[name]}, and only a qualified electrician may open that"
    assert [(row.task, row.reason) for row in plan.refused] == [("replace the sensor", reason)]
    assert [row.id for row in plan.opened.components] == ["badge"]
    assert f"refused: replace the sensor: {reason}" in {notice.message for notice in plan.notices}


def test_a_joint_at_what_is_closed_is_undone_only_where_the_file_leaves_it_open() -> None:
    shut = closed("block").replace(BADGE, BADGE + WORK) + LEAD
    assert [row.task for row in planned(shut, ("inspect", "badge")).refused] == ["inspect the badge"]
    left = closed("block", '\nopen_joints = ["badge-lead"]').replace(BADGE, BADGE + WORK) + LEAD
    plan = planned(left, ("inspect", "badge"))
    assert plan.refused == () and plan.opened.joints == ("badge-clip", "badge-lead")


def test_what_is_closed_travels_whole() -> None:
    plan = planned(closed("sensor").replace('needs = "exposed"', 'needs = "out"'), ("inspect", "block"))
    assert plan.refused == () and "sensor" not in {row.id for row in plan.opened.components}


def test_what_must_move_across_to_a_new_carrier_and_is_closed_keeps_it_from_being_replaced() -> None:
    reasons = [row.reason for row in planned(closed("sensor"), ("replace", "block")).refused]
    assert reasons == ["it opens the sensor, and only a qualified electrician may open that"]


def test_the_check_tells_a_joint_undone_at_what_is_closed() -> None:
    plan = planned(ASSEMBLY.replace(BADGE, BADGE + WORK) + LEAD, ("inspect", "badge"))
    job = HEAD + '[[task]]\ndo = "inspect"\ncomponent = "badge"\n'
    shut = visit(job, assembly=closed("block").replace(BADGE, BADGE + WORK) + LEAD)
    assert [fault.rule for fault in check_plan(plan, shut)] == ["closed"]
