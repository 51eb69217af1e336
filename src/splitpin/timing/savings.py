"""The components and joints whose change would save most on this visit, each change planned again.

For a component the change is that it stands in nobody's way; for a joint, that its pieces come undone and are made up
in no time with bare hands (its seal and its circuit stay). By hand: a cover of 60 s off and on with two screws in front
of the pump saves its 60 s, its screws, their driver, and whatever only the cover asked for.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from splitpin.hardware.fixing import Fixing
from splitpin.hardware.resolving import resolve
from splitpin.planning import Planned
from splitpin.records.assembly import Assembly, Joint
from splitpin.records.base import Behind
from splitpin.records.catalogue import Hardware
from splitpin.records.library import Visit
from splitpin.records.plan import Plan
from splitpin.timing.replanning import Stop, planned_again, standard_seconds, with_assembly

TRIED = 8  # changes of each sort that are planned again: those that could save most by their own time
QUESTIONS = 4_000
_AT_ONCE = "in-no-time"


class Saving(NamedTuple):
    """What a change saves at least (s), and whether both plans are proved best.

    `change` is "out-of-the-way" for a component, "in-no-time" for a joint; `title` names it, `id` is its own.
    """

    change: str
    id: str
    title: str
    saves_s: float
    proved: bool


def savings(
    planned: Planned, hanging: dict[str, float], *, most: int = 5, stop: Stop | None = None
) -> tuple[Saving, ...]:
    """The changes that save most, the largest first; none that saves nothing.

    `hanging` holds by component and by joint the seconds that hang from it: those of each sort with the most are tried.
    Once `stop` says so no more are tried. Cost: at most 16 plans, each searched for a counted while.
    """
    plan, visit = planned.plan, planned.visit
    now = standard_seconds(plan.times, visit)
    found = []
    for change, name, title, other in _changes(plan, visit, hanging):
        if stop is not None and stop():
            break
        again = planned_again(other, QUESTIONS, stop)
        if again is None:
            continue
        saved = now - standard_seconds(again.plan.times, visit)
        if saved > 0:
            found.append(Saving(change, name, title, saved, plan.status == again.plan.status == "proved"))
    return tuple(sorted(found, key=lambda row: (-row.saves_s, row.id))[:most])


def _changes(plan: Plan, visit: Visit, hanging: dict[str, float]) -> Iterator[tuple[str, str, str, Visit]]:
    components = [c for c in visit.assembly.component if c.id in {row.id for row in plan.opened.components}]
    joints = [joint for joint in visit.assembly.joint if joint.id in plan.opened.joints]
    for component in sorted(components, key=lambda row: -hanging.get(row.id, 0.0))[:TRIED]:
        other = with_assembly(visit, _out_of_the_way(visit.assembly, component.id), visit.library)
        yield "out-of-the-way", component.id, component.title, other
    for joint in sorted(joints, key=lambda row: -hanging.get(row.id, 0.0))[:TRIED]:
        yield "in-no-time", joint.id, _named(joint, visit), _in_no_time(visit, joint)


def _named(joint: Joint, visit: Visit) -> str:
    titles = {component.id: component.title for component in visit.assembly.component}
    ends = " to ".join(titles.get(end, visit.assembly.assembly.frame) for end in joint.between)
    return f"{ends} ({joint.title})" if joint.title else ends


def _out_of_the_way(assembly: Assembly, name: str) -> Assembly:
    """The assembly where nothing is behind the component."""
    components = tuple(
        component.model_copy(
            update={
                "behind": _without(component.behind, name),
                "way": tuple(way.model_copy(update={"behind": _without(way.behind, name)}) for way in component.way),
            }
        )
        for component in assembly.component
    )
    joints = tuple(j.model_copy(update={"behind": _without(j.behind, name)}) for j in assembly.joint)
    return assembly.model_copy(update={"component": components, "joint": joints})


def _without(behind: Behind, name: str) -> Behind:
    return tuple(tuple(other for other in names if other != name) for names in behind)


def _in_no_time(visit: Visit, joint: Joint) -> Visit:
    """The visit to plant whose joint takes no time and no tool."""
    fixing = resolve(joint.hardware, visit.library)
    assert isinstance(fixing, Fixing), joint.hardware
    row = Hardware(
        id=_AT_ONCE,
        title=fixing.title,
        plural=fixing.plural,
        kind=fixing.kind,
        off_s=0,
        on_s=0,
        log_spread=0.0,
        reuse="reusable",
        basis="common practice",
    )
    joints = tuple(
        other.model_copy(update={"hardware": _AT_ONCE, "torque_nm": None, "pattern": None})
        if other.id == joint.id
        else other
        for other in visit.assembly.joint
    )
    library = replace(visit.library, hardware={**visit.library.hardware, _AT_ONCE: row})
    return with_assembly(visit, visit.assembly.model_copy(update={"joint": joints}), library)
