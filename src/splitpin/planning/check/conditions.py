"""Whether every condition is made before what needs it, kept while it is needed, and released once and in its turn.

Reading of the definitions. A joint needs its conditions from the step that undoes it to the last that remakes it; a
guard from the first joint undone for its lift to fitting; a boundary from that to its taking, for it may stay open
under a running plant; work for as long as its step. What travels with a lifted component need not bare or disturb
anything, and may. A condition that the job says already holds is confirmed by one step; what comes before its making is
then not asked for, and it may be released or left. Of a condition's `after`, each must hold when the first making step
begins. A condition without release steps lasts as long as those that it comes after, and keeps nothing waiting.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.planning.check.access import Lift
from splitpin.planning.check.definitions import Asked, Definitions, Need
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.planning.check.procedures import over, procedure_faults
from splitpin.planning.check.tasks import work_steps

if TYPE_CHECKING:
    from splitpin.records.assembly import Circuit


def condition_faults(history: History, lifted: tuple[Lift, ...], doing: tuple[Asked, ...]) -> Iterator[Fault]:
    """Conditions missing, late, given up too soon, made or released in the wrong order, clashing, or not needed."""
    needs = tuple(needs_of(history, lifted, doing))
    for need in needs:
        if need.must and not any(history.holds(one, need.first, need.last) for one in need.conditions):
            yield _unmet(history, need)
    yield from _making_faults(history)
    yield from _release_faults(history)
    yield from _clash_faults(history)
    yield from _needless_faults(history, needs)


def needs_of(history: History, lifted: tuple[Lift, ...], doing: tuple[Asked, ...]) -> Iterator[Need]:
    """What must hold, and from which step to which, for every joint, lift and task of the plan."""
    definitions, library = history.definitions, history.definitions.library
    for joint, (undone, *_) in history.did["undo"].items():
        name = definitions.joints[joint].circuit
        if name is not None:
            circuit = definitions.circuits[name]
            span = (undone, history.back("remake", joint))
            for condition in definitions.before_opening(circuit):
                yield Need("not-safe", f"undo {joint}", *span, definitions.met_by(condition))
            yield from _isolation(definitions, circuit, "not-isolated", f"undo {joint}", span)
            for condition in (*library.media[circuit.medium].before_joints, *definitions.joints[joint].conditions):
                yield Need("not-safe", f"undo {joint}", undone, undone, (condition,), must=False)
    for lift in lifted:
        first = _first_fixing(history, lift, lifted)
        span = (first, lift.fitted)
        for component in sorted(definitions.group(lift.component)):
            who, must = f"take {lift.component}", component == lift.component
            for boundary in definitions.components[component].forms:
                for condition in library.boundaries[boundary].before_opening:
                    yield Need("boundary", who, first, lift.taken, definitions.met_by(condition), must)
            for medium in definitions.components[component].guards:
                for condition in library.media[medium].before_opening:
                    last = _guarded_until(history, lift) if library.conditions[condition].ends_open else lift.fitted
                    yield Need("guard", who, first, last, definitions.met_by(condition), must)
                for circuit in definitions.bared_by(component, medium):
                    yield from _isolation(definitions, circuit, "guard", who, span, must)
    for task in doing:
        for step in work_steps(history, task) if task.work is not None else ():
            for condition in task.work.conditions if task.work is not None else ():
                yield Need("not-safe", f"{task.do} {task.component}", step, step, definitions.met_by(condition))


def _first_fixing(history: History, lift: Lift, lifted: tuple[Lift, ...]) -> int:
    """The step that undoes the first joint of a lift, those apart that a lift before it undoes as well."""
    before = {joint for other in lifted if other.taken < lift.taken for joint in other.joints}
    undone = (history.first("undo", joint) for joint in lift.joints if joint not in before)
    return min([lift.taken, *(step for step in undone if step is not None)])


def _guarded_until(history: History, lift: Lift) -> int:
    """The last step of strip, work and refit before the guard itself goes back."""
    acted = ("undo", "take", "work", "seal", "fit", "remake")
    done = (step for action in acted for steps in history.did[action].values() for step in steps)
    return max([lift.taken, *(step for step in done if step < lift.fitted)])


def _isolation(
    definitions: Definitions, circuit: Circuit, rule: str, who: str, span: tuple[int, int], must: bool = True
) -> Iterator[Need]:
    if circuit.isolate:
        yield Need(rule, who, *span, definitions.isolations(circuit), must)


def _unmet(history: History, need: Need) -> Fault:
    names = " or ".join(need.conditions) or "a way to isolate that the job does not rule out"
    made = [condition for condition in need.conditions if history.ready(condition) is not None]
    if not made:
        return Fault(need.first + 1, need.rule, f"{need.who} needs {names}: never made")
    if any(history.holds(condition, need.first, need.first) for condition in made):
        given_up = min(history.given_up(condition) for condition in made)
        return Fault(given_up + 1, need.rule, f"{names} released before {need.who} is back")
    return Fault(need.first + 1, need.rule, f"{need.who} before {names} holds")


def _making_faults(history: History) -> Iterator[Fault]:
    definitions, already = history.definitions, history.definitions.visit.job.job.already
    for condition, steps in history.did["make"].items():
        record = definitions.library.conditions[condition]
        if condition in already:
            yield Fault(steps[0] + 1, "already", f"{condition} is made, though the job says that it holds")
        yield from procedure_faults(history, f"make {condition}", steps, record.make)
        for earlier in record.after:
            if not history.holds(earlier, steps[0], steps[0]):
                yield Fault(steps[0] + 1, "make-order", f"{condition} is begun before {earlier} holds")
    for condition, (step, *_) in history.did["confirm"].items():
        if condition not in already:
            yield Fault(step + 1, "already", f"{condition} is confirmed, though the job does not say so")


def _release_faults(history: History) -> Iterator[Fault]:
    library = history.definitions.library
    for condition in (*history.did["make"], *history.did["confirm"]):
        release = library.conditions[condition].release
        if release and condition in history.did["make"] and condition not in history.did["release"]:
            yield Fault(None, "not-released", f"{condition} is never released")
    for condition, steps in history.did["release"].items():
        record = library.conditions[condition]
        ready = history.ready(condition)
        if ready is None or ready[0] > steps[0]:
            yield Fault(steps[0] + 1, "release-order", f"{condition} is released before it is made")
        yield from procedure_faults(history, f"release {condition}", steps, record.release)
        for earlier in record.release_after:
            action = "prove" if earlier in library.proofs else "release"
            last = history.last(action, earlier)
            if last is not None and not over(history, last, steps[0]):
                yield Fault(steps[0] + 1, "release-order", f"{condition} is released before {action} {earlier}")
        for index, line in zip(steps, record.release, strict=False):
            for earlier in line.after:
                last = history.last("prove" if earlier in library.proofs else "release", earlier)
                if last is not None and not over(history, last, index):
                    yield Fault(index + 1, "release-order", f"release {condition} goes on before {earlier}")


def _clash_faults(history: History) -> Iterator[Fault]:
    """Two conditions that exclude each other never hold together."""
    present = (*history.did["make"], *history.did["confirm"])
    for condition in present:
        for other in history.definitions.library.conditions[condition].excludes:
            if other in present:
                made = max((history.ready(one) or (0, 0))[0] for one in (condition, other))
                if made < min(history.given_up(one) for one in (condition, other)):
                    yield Fault(made + 1, "clash", f"{condition} and {other} hold together")


def _needless_faults(history: History, needs: tuple[Need, ...]) -> Iterator[Fault]:
    """Every condition made is the only one there is for some need, or comes before such a one."""
    definitions = history.definitions
    facts = (definitions.library.facts[name] for name in definitions.visit.job.site.facts)
    used = {condition for fact in facts for condition in fact.conditions}
    for need in needs:
        found = [condition for condition in need.conditions if history.holds(condition, need.first, need.last)]
        if len(found) == 1:
            used.add(found[0])
    waiting = list(used)
    while waiting:
        for earlier in history.definitions.library.conditions[waiting.pop()].after:
            if earlier not in used:
                used.add(earlier)
                waiting.append(earlier)
    for condition in (*history.did["make"], *history.did["confirm"]):
        if condition not in used:
            step = history.first("make", condition)
            step = history.first("confirm", condition) if step is None else step
            yield Fault(None if step is None else step + 1, "needless", f"{condition}, which nothing needs")
