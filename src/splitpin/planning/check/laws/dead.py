"""Laws 10, 11, 12, 15: every supply named and the conductors proved, tests while apart, settings, tightness."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.planning.check.fault import Fault
from splitpin.planning.check.laws.case import Case, broken, says

if TYPE_CHECKING:
    from splitpin.records.assembly import Joint

_STARTED = ("pump-alone", "running", "at-heat")


def proved_dead(case: Case) -> Iterator[Fault]:
    """Law 10. Every point of supply is named from the plant's own list; where conductors are handled, they are proved
    dead in a step of their own once the cover is off, before the first of them."""
    for condition, steps in case.history.did["make"].items():
        isolates = [c for c in case.definitions.assembly.circuit if condition in [way.makes for way in c.isolate]]
        ways = {way.by for circuit in isolates for way in circuit.isolate if way.makes == condition}
        wanted = {
            point.id
            for point in case.points.values()
            if point.role == "isolates"
            and point.kind in ("supply", "switch")
            and point.circuit in {circuit.id for circuit in isolates}
            and (point.by is None or point.by in ways)
        }
        for point in sorted(wanted):
            if not any(index in steps for index, _ in case.settings(point)):
                yield broken(10, steps[0], f"{condition} does not name {point}")
    for name, joints in case.opened.items():
        medium = case.definitions.library.media[case.definitions.circuits[name].medium]
        for joint in joints:
            record = case.definitions.joints[joint]
            for condition in (*medium.before_joints, *record.conditions):
                yield from _at_the_joint(case, record, condition)


def _at_the_joint(case: Case, joint: Joint, condition: str) -> Iterator[Fault]:
    undone = case.history.did["undo"][joint.id][0]
    if not case.made(condition) or not case.history.holds(condition, undone, undone):
        yield broken(10, undone, f"undo {joint.id} before {condition} holds")
        return
    begun = case.begun(condition)
    if blockers := case.history.before_joint(joint.id, begun):
        yield broken(10, begun, f"{condition} is begun with {' and '.join(blockers)} in front of {joint.id}")


def tested_apart(case: Case) -> Iterator[Fault]:
    """Law 11. A test that a part cannot stand, or that only its absence allows, runs while it is out or its leads are
    off; what the test measures is not disturbed again after it."""
    absent = {proof for component in case.definitions.assembly.component for proof in component.out_for}
    for component in case.definitions.assembly.component:
        for proof in component.out_for:
            for index in case.history.did["prove"].get(proof, ()):
                if not _apart(case, component.id, index):
                    yield broken(11, index, f"{proof} runs while {component.id} is connected")
    for proof, demand in case.demands.items():
        steps = case.history.did["prove"].get(proof)
        if steps is None or proof in absent or case.definitions.library.proofs[proof].plant != "dead":
            continue
        for joint in demand.joints:
            if case.history.back("remake", joint) > steps[0]:
                yield broken(11, steps[0], f"{joint} is disturbed after {proof}")


def _apart(case: Case, component: str, step: int) -> bool:
    """Out by itself or with its carrier, or every joint of it on a circuit undone."""
    if case.history.out(component, step) or any(
        case.history.out(one, step) for one in case.definitions.carriers(component)
    ):
        return True
    leads = [j.id for j in case.definitions.assembly.joint if component in j.between and j.circuit is not None]
    return bool(leads) and all(_open(case, lead, step) for lead in leads)


def _open(case: Case, joint: str, step: int) -> bool:
    undone, remade = case.history.first("undo", joint), case.history.first("remake", joint)
    return undone is not None and undone < step and (remade is None or remade > step)


def settings_set(case: Case) -> Iterator[Fault]:
    """Law 12. Nothing starts before the settings that a new part holds are set and read back; they are read before,
    or the plan says where they come from, and each is named."""
    library = case.definitions.library
    for name in sorted(case.new):
        component = case.definitions.components[name]
        if not component.holds_settings:
            continue
        goes = [case.goes(one) for one in case.history.did["make"] if "powered" in library.conditions[one].takes_away]
        taken = case.history.first("take", name)
        before = min([*goes, len(case.steps) if taken is None else taken])
        noted = any(index <= before for index in case.acts("note", name, *component.holds_settings))
        if not noted:
            yield broken(12, before, f"the settings of {name} are not read, by name, before it is dead")
        if component.settings_from and not any(says(step, component.settings_from) for step in case.steps):
            yield broken(12, before, f"nothing says where the settings of {name} come from if it is dead")
        entered = [steps for proof, steps in case.history.did["prove"].items() if library.proofs[proof].settings]
        back = case.history.back("fit", name)
        started = [index for index in case.proofs_in(*_STARTED) if index > back]
        if not entered:
            yield broken(12, None, f"the settings of {name} are never entered and read back")
        elif started and started[0] <= entered[0][-1]:
            yield broken(12, started[0], f"starts before the settings of {name} are read back")
        elif not says_all(case, entered[0], component.holds_settings):
            yield broken(12, entered[0][0], f"the settings of {name} are not entered by name")


def says_all(case: Case, steps: tuple[int, ...], words: tuple[str, ...]) -> bool:
    """Whether each of the words stands in one of the steps."""
    return all(any(says(case.steps[index], word) for index in steps) for word in words)


def tight(case: Case) -> Iterator[Fault]:
    """Law 15. A joint that must be tight has its figure with a source, or a blank for the maker's, and the tool that
    reads it; cores are pulled one by one."""
    library = case.definitions.library
    for name in case.history.did["undo"]:
        joint = case.definitions.joints[name]
        circuit = None if joint.circuit is None else case.definitions.circuits[joint.circuit]
        kind = library.kinds[case.definitions.fixing(name).kind]
        demanded = circuit is not None and library.media[circuit.medium].tight
        how = joint.tightness or (kind.tightness if demanded else None)
        remade = case.history.back("remake", name)
        if remade == len(case.steps):
            continue
        step = case.steps[remade]
        if how == "torque":
            reads = any(library.tools[tool].max_nm is not None for tool in step.tools if tool in library.tools)
            if step.torque_nm is None and "N·m" not in (step.record or ""):
                yield broken(15, remade, f"{name} is closed without a torque or a blank for it")
            elif not reads:
                yield broken(15, remade, f"{name} is closed without a tool that reads its torque")
        elif how == "pull":
            pulled = [index for index in case.acts("pull", name, "pull") if index >= remade]
            count = sum(
                act.count for i in pulled for act in case.steps[i].acts if (act.act, act.thing) == ("pull", name)
            )
            if count < joint.count:
                yield broken(15, remade, f"{count} of {joint.count} cores of {name} are pulled")
