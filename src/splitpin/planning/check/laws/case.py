"""One plan before the laws: its history, what it lifted and was asked, and look-ups that several laws share.

Reading of the definitions. What counts is what a step says: an act of a step is taken for done only where the words
of the thing stand in its text or its blank, a point for set only where its title does. A step's state is its own, or
that of the record it carries out. Steps are counted from 0 here, as in the history.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from splitpin.planning.check.access import Lift
from splitpin.planning.check.definitions import Asked, Definitions, Need
from splitpin.planning.check.disturbances import adjusted, new_parts
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.planning.check.proofs import Demand
from splitpin.planning.check.tasks import work_steps
from splitpin.records.plan import Plan, PlanProof, Step

if TYPE_CHECKING:
    from splitpin.records.assembly import Circuit
    from splitpin.records.points import Point
    from splitpin.records.procedure import ProcedureStep


def broken(law: int, step: int | None, message: str) -> Fault:
    """The fault that a law by this number is broken, at a step counted from 0, or by the plan as a whole."""
    return Fault(None if step is None else step + 1, f"law-{law}", message)


@dataclass(frozen=True)
class Case:
    """What the laws look at. `needs` and `demands` are what the definitions ask for, whether or not the plan has it."""

    plan: Plan
    history: History
    lifted: tuple[Lift, ...]
    doing: tuple[Asked, ...]
    needs: tuple[Need, ...]
    demands: dict[str, Demand]

    @property
    def definitions(self) -> Definitions:
        return self.history.definitions

    @property
    def steps(self) -> tuple[Step, ...]:
        return self.history.steps

    # what was disturbed

    @cached_property
    def opened(self) -> dict[str, tuple[str, ...]]:
        """The circuits of which a joint was undone, with those joints in the order of undoing."""
        found: dict[str, list[str]] = {}
        for joint in sorted(self.history.did["undo"], key=lambda joint: self.history.did["undo"][joint][0]):
            if (circuit := self.definitions.joints[joint].circuit) is not None:
                found.setdefault(circuit, []).append(joint)
        return {circuit: tuple(joints) for circuit, joints in found.items()}

    @cached_property
    def new(self) -> frozenset[str]:
        """Components that were replaced, and those that came with them."""
        return new_parts(self.history, self.doing)

    @cached_property
    def adjusted(self) -> frozenset[str]:
        """Components on which a task was done that changes them."""
        return adjusted(self.doing)

    @cached_property
    def touched(self) -> frozenset[str]:
        """Components that were lifted, carried by one that was lifted out, or worked on."""
        found = {one for lift in self.lifted for one in self.definitions.group(lift.component)}
        return frozenset(found | {task.component for task in self.doing if task.component is not None})

    # conditions

    def made(self, condition: str) -> bool:
        """Whether the plan makes it or confirms it."""
        return condition in self.history.did["make"] or condition in self.history.did["confirm"]

    def begun(self, condition: str) -> int:
        """The first step that makes or confirms it; the plan has one."""
        return min(self.history.did[action][condition][0] for action in ("make", "confirm")
                   if condition in self.history.did[action])  # fmt: skip

    def goes(self, condition: str) -> int:
        """The step from which on its states are taken away: the first of its makings that sets a point, or the last."""
        steps = self.history.did["make"].get(condition) or (self.begun(condition),)
        return next((index for index in steps if self.steps[index].points), steps[-1])

    def isolating(self, circuit: Circuit) -> tuple[str, ...]:
        """The conditions of this plan that isolate the circuit."""
        return tuple(way.makes for way in circuit.isolate if self.made(way.makes))

    def circuits_of(self, condition: str) -> tuple[Circuit, ...]:
        """The circuits that a condition is about: those that it isolates, or that ask for it, or for what comes after
        it; of these the ones that the plan opens, where it opens any."""
        about = [
            circuit
            for circuit in self.definitions.assembly.circuit
            if any(condition in self.before(one) for one in
                   (*(way.makes for way in circuit.isolate), *self.definitions.before_opening(circuit)))
        ]  # fmt: skip
        opened = [circuit for circuit in about if circuit.id in self.opened]
        own = [circuit for circuit in about if condition in [way.makes for way in circuit.isolate]]
        opened = [circuit for circuit in own or about if circuit.id in self.opened]
        return tuple(opened or own or about)

    def before(self, condition: str) -> set[str]:
        """The condition and all that it is made after."""
        found, waiting = {condition}, [condition]
        while waiting:
            for earlier in self.definitions.library.conditions[waiting.pop()].after:
                if earlier not in found:
                    found.add(earlier)
                    waiting.append(earlier)
        return found

    # points

    @cached_property
    def points(self) -> dict[str, Point]:
        return {point.id: point for point in self.definitions.assembly.point}

    def settings(self, point: str) -> tuple[tuple[int, str], ...]:
        """Every step that sets the point and says so, and what to."""
        return tuple(
            (index, one.to)
            for index, step in enumerate(self.steps)
            for one in step.points
            if one.id == point and self.points[point].title.lower() in step.text.lower()
        )

    def role(self, circuit: Circuit, role: str, condition: str | None = None) -> tuple[str, ...]:
        """The points that do this for the circuit; with a condition, those of the way of isolating that makes it."""
        if role in ("feeds", "drives"):
            return tuple((circuit.feeds if role == "feeds" else circuit.drivers) or ())
        ways = {way.by for way in circuit.isolate if way.makes == condition}
        return tuple(
            point.id
            for point in self.definitions.assembly.point
            if point.circuit == circuit.id and point.role == role and (not ways or point.by is None or point.by in ways)
        )

    # steps

    @cached_property
    def lines(self) -> dict[int, ProcedureStep]:
        """The line of the record that each step of a procedure carries out."""
        library, found = self.definitions.library, dict[int, "ProcedureStep"]()
        for action in ("make", "release", "prove"):
            for thing, steps in self.history.did[action].items():
                if action == "prove":
                    lines = library.proofs[thing].step
                else:
                    lines = library.conditions[thing].make if action == "make" else library.conditions[thing].release
                found.update(zip(steps, lines, strict=False))
        return found

    @cached_property
    def _tasks(self) -> dict[int, Asked]:
        return {step: task for task in self.doing if task.work is not None for step in work_steps(self.history, task)}

    def state(self, step: int) -> str | None:
        """What the plant must be in while this step and its wait last."""
        if self.steps[step].state is not None:
            return self.steps[step].state
        if step in self.lines:
            return self.lines[step].state
        task = self._tasks.get(step)
        return task.work.state if task is not None and task.work is not None else None

    def acts(self, act: str, thing: str, *words: str) -> tuple[int, ...]:
        """The steps that do this to that and say so in these words."""
        return tuple(
            index
            for index, step in enumerate(self.steps)
            if any((one.act, one.thing) == (act, thing) for one in step.acts) and says(step, *words)
        )

    def covers(self, component: str) -> tuple[str, ...]:
        """What was taken from in front of the component and put back."""
        front = {one for choice in self.definitions.in_front(component) for one in choice}
        return tuple(one for one in self.history.did["take"] if one in front)

    def proof(self, name: str) -> PlanProof | None:
        """The plan's row of a proof."""
        return next((row for row in self.plan.proofs if row.id == name), None)

    def proofs_in(self, *states: str) -> Iterator[int]:
        """Steps that prove or release in one of these states."""
        for index, step in enumerate(self.steps):
            if step.action in ("prove", "release") and self.state(index) in states:
                yield index


def says(step: Step, *words: str) -> bool:
    """Whether all these words stand in the text of a step or in its blank."""
    text = f"{step.text} {step.record or ''}".lower()
    return all(one.lower().rstrip(".") in text for one in words)
