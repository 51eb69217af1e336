"""What a guard asks for is its own: what the medium wants there, and that the circuits it bares are isolated."""

from tests.planning.small_plant import ASSEMBLY, JOB, visit

from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.records.plan import Plan

LOOK_AT_BADGE = JOB[: JOB.index("[[task]]")] + '[[task]]\ndo = "inspect"\ncomponent = "badge"\n'
BADGE = """[component.work.inspect]
needs = "exposed"
min = { low = 1, mode = 1, high = 1 }
basis = "from memory"
"""


def badge_behind_the_casing(circuits: str, joints: str = "", *, shown: bool = True) -> Plan:
    """The plan for a look at the badge, which the casing hides; the mains has these circuits beside its supply."""
    text = ASSEMBLY.replace(
        'title = "badge"\nrole = "badge"\nposition = "front"\n',
        f'title = "badge"\nrole = "badge"\nposition = "front"\nbehind = ["casing"]\n{BADGE}',
    ).replace('[[component]]\nid = "casing"', f'{circuits}\n[[component]]\nid = "casing"')
    if not shown:
        text = text.replace('hardware = "plug"\ncircuit = "supply"\n', 'hardware = "plug"\n')
    asked = visit(LOOK_AT_BADGE, assembly=text + joints)
    plan = plan_visit(asked).plan
    assert check_plan(plan, asked) == ()
    return plan


def made(plan: Plan) -> set[str]:
    return {row.id for row in plan.conditions}


def test_what_another_circuit_of_the_medium_overrides_is_not_asked_at_the_guard() -> None:
    pump = '[[circuit]]\nid = "pump-supply"\nmedium = "mains"\nbefore_opening = ["valved-off"]\n'
    plan = badge_behind_the_casing(pump + 'isolate = [{ by = "isolator", makes = "dead" }]')
    assert made(plan) == {"dead"}


ELSEWHERE = """
[[circuit]]
id = "other-supply"
medium = "mains"
isolate = [{ by = "other-isolator", makes = "valved-off" }]
"""
LEAD = """
[[joint]]
id = "lead"
between = ["%s", "frame"]
hardware = "plug"
circuit = "other-supply"
position = "front"
"""


def test_only_the_circuits_behind_the_guard_are_isolated() -> None:
    assert made(badge_behind_the_casing(ELSEWHERE, LEAD % "badge")) == {"dead", "valved-off"}
    lamp = '[[component]]\nid = "lamp"\ntitle = "lamp"\nrole = "lamp"\nposition = "front"\n'
    assert made(badge_behind_the_casing(ELSEWHERE, lamp + LEAD % "lamp")) == {"dead"}


def test_where_no_joint_shows_what_is_behind_every_circuit_is_isolated() -> None:
    assert made(badge_behind_the_casing(ELSEWHERE, shown=False)) == {"dead", "valved-off"}
