"""Whether what the plan undoes can be reached, and what it lifts can leave and go back.

Reading of the definitions. A joint or component is at the bench exactly while a component that carries it is right
out (aside does not count). Going back is the mirror of leaving: a component is fitted by the way it left, while one
of that way's `behind` sets is clear and none of that way's joints is remade yet; a joint is remade where it could
be undone. A joint that several lifts undo belongs, for the order of kinds, to the first of them to leave and the
last of them to come back. Where several ways would do, any one that breaks no rule is accepted.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.records.words import BENCH

if TYPE_CHECKING:
    from splitpin.records.assembly import Way


@dataclass(frozen=True, slots=True)
class Lift:
    """A component that the plan takes: by which way, undoing which joints, and what is wrong with it."""

    component: str
    way: Way
    taken: int
    fitted: int
    joints: tuple[str, ...]
    faults: tuple[Fault, ...]


def lifts(history: History) -> tuple[Lift, ...]:
    """Every component that leaves, in the order of leaving, each by the way that breaks the fewest rules."""
    found = []
    for component in history.did["take"]:
        ends = history.ends.get(component)
        tries = [
            _lift(history, component, way) for way in history.definitions.components[component].ways if way.ends == ends
        ]
        if tries:
            found.append(min(tries, key=lambda lift: len(lift.faults)))
    return tuple(found)


def access_faults(history: History) -> Iterator[Fault]:
    """Every joint undone or remade out of reach, every component that leaves or comes back by no way it has."""
    found = lifts(history)
    yield from _ends_faults(history, {lift.component for lift in found})
    for lift in found:
        yield from lift.faults
    for joint, (undone, *_) in history.did["undo"].items():
        if history.definitions.sealed(joint):
            yield Fault(undone + 1, "closed", f"undo {joint}, at what only a licensed person may open")
    yield from joint_faults(history)
    if "ranks" not in history.definitions.visit.firm.habits.off:
        yield from _rank_faults(history, found)
    yield from _position_faults(history)


def joint_faults(history: History) -> Iterator[Fault]:
    """Joints undone or remade while something stands in front of them."""
    for action in ("undo", "remake"):
        for joint, steps in history.did[action].items():
            for step in steps:
                if blockers := history.before_joint(joint, step):
                    yield Fault(step + 1, "out-of-reach", f"{action} {joint} behind {' and '.join(blockers)}")


def _lift(history: History, component: str, way: Way) -> Lift:
    definitions = history.definitions
    taken, fitted = history.did["take"][component][0], history.back("fit", component)
    joints: list[str] = []
    faults = []
    off_s, on_s = definitions.handling_s(component, way)
    for action, step, least in (("take", taken, off_s), ("fit", fitted, on_s)):
        if step == len(history.steps):
            continue
        if (seconds := history.steps[step].seconds) < least:
            faults.append(Fault(step + 1, "clock", f"takes {seconds} s, and its record gives {least} s"))
        carrier = history.carrier_out((component,), step, of_itself=False)
        blockers = history.in_the_way(way.behind, carrier, step, way.bench_behind, definitions.carriers(component))
        if blockers:
            faults.append(Fault(step + 1, "blocked", f"{action} {component} behind {' and '.join(blockers)}"))
        for joint in definitions.undone_by(component, way):
            if carrier is not None and not set(definitions.joints[joint].between) <= definitions.group(carrier):
                continue
            if joint not in joints:
                joints.append(joint)
            undone = history.first("undo", joint)
            if undone is None or undone > taken:
                faults.append(Fault(step + 1, "still-held", f"{action} {component} while {joint} is made"))
            elif (remade := history.first("remake", joint)) is not None and remade < step:
                faults.append(Fault(step + 1, "still-held", f"{action} {component} after {joint} is remade"))
    return Lift(component, way, taken, fitted, tuple(joints), tuple(dict.fromkeys(faults)))


def _ends_faults(history: History, lifted: set[str]) -> Iterator[Fault]:
    """The list of what is opened says of each component taken, and of no other, how it leaves; it has such a way."""
    for component in history.ends:
        if component not in history.did["take"]:
            yield Fault(None, "opened", f"{component} is listed as opened, but no step takes it")
    for component, (taken, *_) in history.did["take"].items():
        if component not in history.ends:
            yield Fault(taken + 1, "opened", f"{component} is taken, but not listed as opened")
        elif component not in lifted:
            yield Fault(taken + 1, "no-such-way", f"{component} has no way that ends {history.ends[component]}")
        if history.definitions.closed(component):
            yield Fault(taken + 1, "closed", f"take {component}, which only a licensed person may open")


def _rank_faults(history: History, found: tuple[Lift, ...]) -> Iterator[Fault]:
    """Joints of one lift come apart by the rank of their kinds, and go together the other way round."""
    leaving = {joint: lift.component for lift in reversed(found) for joint in lift.joints}
    coming = {joint: lift.component for lift in sorted(found, key=lambda lift: lift.fitted) for joint in lift.joints}
    for action, owner, sign in (("undo", leaving, 1), ("remake", coming, -1)):
        for lift in found:
            joints = [joint for joint in lift.joints if owner[joint] == lift.component and joint in history.did[action]]
            joints.sort(key=lambda joint: history.did[action][joint])
            for before, after in pairwise(joints):
                ranks = [history.definitions.rank(joint) for joint in (before, after)]
                if ranks != sorted(ranks)[::sign]:
                    step = history.did[action][after][0]
                    yield Fault(step + 1, "rank", f"{action} {after} after {before} at {lift.component}")


def _position_faults(history: History) -> Iterator[Fault]:
    """A step stands where its joint or component is: at the bench exactly when what carries it is out."""
    definitions = history.definitions
    places = {*definitions.assembly.assembly.positions, BENCH}
    for index, step in enumerate(history.steps):
        if step.position is not None and step.position not in places:
            yield Fault(step.n, "position", f"{step.position} is no position of this plant")
        if step.action in ("undo", "remake") and step.joint in definitions.joints:
            joint = definitions.joints[step.joint]
            carrier, place = history.carrier_out(joint.between, index), joint.position
        elif step.action in ("take", "fit") and step.component in definitions.components:
            component = definitions.components[step.component]
            carrier, place = history.carrier_out((component.id,), index, of_itself=False), component.position
        else:
            continue
        wanted = place if carrier is None else BENCH
        if step.position != wanted:
            yield Fault(step.n, "position", f"{step.action} at {step.position}, not at {wanted}")
