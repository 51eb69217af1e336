"""Whether the plan proves exactly what it disturbed, each proof at its stage and with the limits that are set.

Reading of the definitions. What travels with a lifted component may bring the proofs of its boundaries and its own,
and need not; what comes with its new part brings those of its replacement too. A lift is over when its joints are
remade. A joint, or a component that was lifted or reached for its work, can be seen while one of its `behind` sets is
clear; a notice `hidden-joint` that names it and the proof excuses it where it cannot, and nowhere else. `charged` asks
for the release of the isolations of the circuits that brought the proof or that the work which brought it asks for, or
of what they came after where they have no release of their own. Other conditions without release steps never count as
unreleased. Where a jurisdiction and the general list both set a limit, the jurisdiction's stands. A job without a date
takes any edition of a limit, or none.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from splitpin.planning.check.access import Lift
from splitpin.planning.check.definitions import Asked
from splitpin.planning.check.disturbances import may_prove
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.planning.check.procedures import over, procedure_faults
from splitpin.planning.check.tasks import work_steps
from splitpin.records.plan import Plan, PlanProof, PlanReading

if TYPE_CHECKING:
    from splitpin.records.procedure import Limit, Proof


@dataclass
class Demand:
    """What brings one proof: joints with their circuits, components, work with its conditions, and the last step that
    undoes the disturbance.
    """

    joints: list[str] = field(default_factory=list)
    conditions: list[str] = field(default_factory=list)
    circuits: list[str] = field(default_factory=list)
    components: list[str] = field(default_factory=list)
    after: list[int] = field(default_factory=list)
    must: bool = False


def demands_of(history: History, lifted: tuple[Lift, ...], doing: tuple[Asked, ...]) -> dict[str, Demand]:
    """The proofs that joints, boundaries, components and work bring, each once."""
    definitions = history.definitions
    found: dict[str, Demand] = {}
    for joint in history.did["undo"]:
        name = definitions.joints[joint].circuit
        for proof in () if name is None else definitions.after_remaking(definitions.circuits[name]):
            demand = found.setdefault(proof, Demand())
            demand.joints.append(joint)
            demand.circuits.append(name or "")
            demand.after.append(history.back("remake", joint))
            demand.must = True
    replaced = {task.component for task in doing if task.do == "replace"}
    for lift in lifted:
        new = definitions.proofs_of_new(lift.component) if lift.component in replaced else ()
        brought = [(proof, True) for proof in new]
        for name in sorted(definitions.group(lift.component)):
            component = definitions.components[name]
            bounds = (p for b in component.forms for p in definitions.library.boundaries[b].after_remaking)
            brought += [(proof, name == lift.component) for proof in (*bounds, *component.proves)]
        for proof, must in brought:
            demand = found.setdefault(proof, Demand())
            demand.after.append(lift.fitted)
            demand.components.append(lift.component)
            demand.after.extend(history.back("remake", joint) for joint in lift.joints)
            demand.must |= must
    for task in doing:
        for proof in task.work.proofs if task.work is not None else ():
            demand = found.setdefault(proof, Demand())
            demand.after.extend(work_steps(history, task)[-1:])
            demand.conditions.extend(task.work.conditions if task.work is not None else ())
            if task.component is not None and task.work is not None and task.work.needs != "in-place":
                demand.components.append(task.component)
            demand.must = True
    for proof in may_prove(history, lifted, doing):
        found.setdefault(proof, Demand())
    return found


def proof_faults(history: History, plan: Plan, lifted: tuple[Lift, ...], doing: tuple[Asked, ...]) -> Iterator[Fault]:
    """Proofs missing, not asked for, out of their stage or turn, or with other readings than they should have."""
    demands = demands_of(history, lifted, doing)
    for proof, demand in demands.items():
        if demand.must and proof not in history.did["prove"]:
            yield Fault(None, "proof-missing", f"{proof} is not proved")
    listed = {row.id: row for row in plan.proofs}
    for proof in listed:
        if proof not in history.did["prove"]:
            yield Fault(None, "proof-list", f"{proof} is listed, but no step proves it")
    for proof, steps in history.did["prove"].items():
        if proof not in demands:
            yield Fault(steps[0] + 1, "needless", f"{proof} is proved, which nothing disturbed asks for")
            continue
        record = history.definitions.library.proofs[proof]
        yield from procedure_faults(history, f"prove {proof}", steps, record.step)
        yield from _turn_faults(history, record, demands[proof], steps)
        yield from _stage_faults(history, record, demands[proof], steps, plan)
        yield from _plant_faults(history, record, demands[proof], steps)
        if proof not in listed:
            yield Fault(steps[0] + 1, "proof-list", f"{proof} is not listed among the proofs")
        else:
            yield from _row_faults(history, record, demands[proof], listed[proof])


def _turn_faults(history: History, record: Proof, demand: Demand, steps: tuple[int, ...]) -> Iterator[Fault]:
    if record.stage != "apart" and any(step >= steps[0] for step in demand.after):
        yield Fault(steps[0] + 1, "proof-early", f"{record.id} before what it proves is back")
    for earlier in record.after:
        last = history.last("prove", earlier)
        if last is not None and not over(history, last, steps[0]):
            yield Fault(steps[0] + 1, "proof-order", f"{record.id} before {earlier} is proved")


def _stage_faults(
    history: History, record: Proof, demand: Demand, steps: tuple[int, ...], plan: Plan
) -> Iterator[Fault]:
    if record.stage == "apart":
        return
    if record.stage == "open":
        for thing, name, step in _out_of_sight(history, demand, steps) if record.sight else ():
            excused = any(
                notice.code == "hidden-joint"
                and record.title in notice.message
                and f"{name} must be proved" in notice.message
                for notice in plan.notices
            )
            if step is not None and not excused:
                yield Fault(step + 1, "proof-hidden", f"{record.id} while {thing} cannot be seen")
            elif step is None and excused:
                yield Fault(steps[0] + 1, "notice", f"{thing} is called hidden from {record.id}, and it is not")
        return
    for away, back in (("take", "fit"), ("undo", "remake")):
        for thing in history.did[away]:
            if history.back(back, thing) > steps[0]:
                yield Fault(steps[0] + 1, "proof-stage", f"{record.id} before {back} {thing}")


def _out_of_sight(history: History, demand: Demand, steps: tuple[int, ...]) -> Iterator[tuple[str, str, int | None]]:
    """What brought a proof, what a notice calls it, and the first step of the proof that cannot see it, or none."""
    components, frame = history.definitions.components, history.definitions.assembly.assembly.frame
    for joint in demand.joints:
        record = history.definitions.joints[joint]
        ends = " to ".join(components[end].title if end in components else frame for end in record.between)
        yield joint, ends, next((step for step in steps if history.before_joint(joint, step)), None)
    for name in dict.fromkeys(demand.components):
        covered = (step for step in steps if history.before_component(name, step))
        yield name, f"the {components[name].title}", next(covered, None)


def _plant_faults(history: History, record: Proof, demand: Demand, steps: tuple[int, ...]) -> Iterator[Fault]:
    definitions = history.definitions
    made = [*history.did["make"], *history.did["confirm"]]
    for condition in record.held:
        if condition in made and not history.holds(condition, steps[0], steps[-1]):
            yield Fault(steps[0] + 1, "proof-plant", f"{record.id} while {condition} does not hold")
    released: set[str] = set()
    if record.plant == "running" or record.stage == "live":
        released.update(made)
    elif record.plant == "charged":
        isolations = [one for name in demand.circuits for one in definitions.isolations(definitions.circuits[name])]
        every = {one for circuit in definitions.circuits.values() for one in definitions.isolations(circuit)}
        isolations += [one for one in demand.conditions if one in every]
        for isolation in isolations:
            released.update(one for one in definitions.released_by(isolation) if one in made)
    for condition in sorted(released - set(record.held)):
        last = _released_for(history, condition, record.id)
        if definitions.library.conditions[condition].release and (last is None or not over(history, last, steps[0])):
            yield Fault(steps[0] + 1, "proof-plant", f"{record.id} before {condition} is released")


def _released_for(history: History, condition: str, proof: str) -> int | None:
    """The last step of a release that does not wait for this proof: a valve that is cracked, not yet opened fully."""
    lines, steps = history.definitions.library.conditions[condition].release, history.did["release"].get(condition, ())
    waiting = next((index for index, line in enumerate(lines) if proof in line.after), len(lines))
    return steps[:waiting][-1] if steps[:waiting] else None


def _row_faults(history: History, record: Proof, demand: Demand, row: PlanProof) -> Iterator[Fault]:
    if (row.stage, row.failure) != (record.stage, record.failure):
        yield Fault(None, "proof-list", f"{record.id} is listed with another stage or failure")
    if sorted(row.joints) != sorted(demand.joints):
        yield Fault(None, "proof-list", f"{record.id} is listed for {list(row.joints)}, not {demand.joints}")
    if [reading.id for reading in row.readings] != [reading.id for reading in record.reading]:
        yield Fault(None, "reading", f"{record.id} is listed without its readings")
        return
    dated = history.definitions.visit.job.job.date is not None
    for found, wanted in zip(row.readings, record.reading, strict=True):
        limits = [] if wanted.limit is None else _limits(history, wanted.limit)
        if found.unit != wanted.unit:
            yield Fault(None, "reading", f"{record.id}: {found.id} in {found.unit}, not {wanted.unit}")
        if not any((found.min, found.max) == _bounds(limit) for limit in limits):
            yield from _without_limit(record, found, limits, wanted.limit, dated=dated)
        elif (found.min, found.max) != (None, None) and not found.source:
            yield Fault(None, "reading", f"{record.id}: {found.id} has a limit without its source")


def _without_limit(
    record: Proof, found: PlanReading, limits: list[Limit], wanted: str | None, *, dated: bool
) -> Iterator[Fault]:
    if (found.min, found.max) != (None, None):
        yield Fault(None, "reading", f"{record.id}: the limit of {found.id} is not one that is set here")
    elif limits and dated:
        yield Fault(None, "reading", f"{record.id}: {found.id} is without the limit that is set here")
    elif wanted is not None and not found.note:
        yield Fault(None, "reading", f"{record.id}: {found.id} does not say that no limit is set")


def _bounds(limit: Limit) -> tuple[float | None, float | None]:
    """What the limit binds; one from memory binds nothing."""
    return (None, None) if limit.basis == "from memory" else (limit.min, limit.max)


def _limits(history: History, wanted: str) -> list[Limit]:
    """The limits that stand for this reading on the day of the job: the jurisdiction's, or else the general ones."""
    visit = history.definitions.visit
    day = visit.job.job.date
    for name in (visit.job.job.jurisdiction or visit.firm.firm.jurisdiction, "general"):
        file = visit.library.limits.get(name)
        found = [
            limit
            for limit in (file.limit if file is not None else ())
            if limit.id == wanted and (day is None or (limit.valid_from or day) <= day <= (limit.valid_until or day))
        ]
        if found:
            return found
    return []
