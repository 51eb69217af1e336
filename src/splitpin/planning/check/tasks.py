"""Whether the plan does what the job asks: every task with its reach, or refused for a reason that is one.

Reading of the definitions. `out` means that the component itself was taken right out; to travel with a carrier is
not enough. A seal that goes on before positioning is renewed only where one end of its joint is moved. `exposed` is
reached when the component is itself away, or one of its `behind` sets (of any of its ways) is clear. `in-place` asks
for nothing. A task's own steps are known by their words; where the words are no help, every work step on the
component counts as the task's, and one of them must have the reach. Where a part is replaced and no work says more,
it only comes out and goes back.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.planning.check.definitions import Asked, Definitions
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.records.plan import Plan

if TYPE_CHECKING:
    from splitpin.records.assembly import Joint, Way


def task_faults(history: History, plan: Plan) -> Iterator[Fault]:
    """Tasks left undone, done out of reach, or refused without reason; steps that work on what nobody asked for."""
    definitions = history.definitions
    doing = wanted(plan, definitions)
    for task in definitions.asked:
        if task not in doing and _within_reach(task, definitions):
            yield Fault(None, "refused", f"{_name(task)} is refused, though nothing it opens is closed to the engineer")
    for task in doing:
        if not _done(history, task):
            yield Fault(None, "task-undone", f"no step does this: {_name(task)}")
    yield from reach_faults(history, doing)
    yield from _moving_faults(history, doing)
    asked_for = {task.component or task.joint for task in doing}
    seen: set[tuple[str | None, str | None, str]] = set()
    for index, step in enumerate(history.steps):
        if step.action != "work":
            continue
        same = (step.component, step.joint, step.text)
        if same in seen:
            yield Fault(index + 1, "twice", f"the same work on {step.component or step.joint} a second time")
        seen.add(same)
        if (step.component or step.joint) not in asked_for:
            yield Fault(index + 1, "needless", f"work on {step.component or step.joint}, which no task asks for")


def wanted(plan: Plan, definitions: Definitions) -> tuple[Asked, ...]:
    """The tasks of the job that the plan does not refuse."""
    refused = [refusal.task.lower() for refusal in plan.refused]
    return tuple(task for task in definitions.asked if not any(_speaks_of(text, task, definitions) for text in refused))


def reach_faults(history: History, doing: tuple[Asked, ...]) -> Iterator[Fault]:
    """Tasks whose component (or joint) is not reached as far as the work needs."""
    for task in doing:
        if task.component is None:
            if _stays_closed(history, task.joint or ""):
                yield Fault(None, "reach", f"{_name(task)}: the faces of {task.joint} never come apart")
            continue
        if needs_out(task) and not _taken_out(history, task.component):
            yield Fault(None, "reach", f"{_name(task)}: {task.component} is never taken out")
        steps = work_steps(history, task) if task.work is not None else ()
        short = [step for step in steps if not _reached(history, task, step)]
        sure = len(steps) == len(history.did["work"].get(task.component, ())) == 1 or _worded(history, task)
        if short and (sure or len(short) == len(steps)):
            yield Fault(short[0] + 1, "reach", f"{_name(task)}: {task.component} is not {_needs(task)}")


def targets(doing: tuple[Asked, ...], definitions: Definitions) -> set[str]:
    """What the tasks take right out: what they work on, and what moves across to a new carrier."""
    found = {task.component for task in doing if task.component is not None and needs_out(task)}
    for task in doing:
        if task.do == "replace" and task.component is not None:
            found.update(definitions.moves_across(task.component))
    return found


def _moving_faults(history: History, doing: tuple[Asked, ...]) -> Iterator[Fault]:
    """What a replaced carrier carries, and the new part does not bring, comes off the old one and goes on the new."""
    for task in doing:
        if task.do == "replace" and task.component is not None:
            old, new = history.first("take", task.component), history.back("fit", task.component)
            for carried in history.definitions.moves_across(task.component):
                taken, fitted = history.first("take", carried), history.back("fit", carried)
                if old is None or taken is None or taken > new or fitted < old:
                    yield Fault(None, "moves-across", f"{carried} does not move across to the new {task.component}")


def needs_out(task: Asked) -> bool:
    """Whether the component must be taken right out: to be replaced, or because the work says so."""
    return task.component is not None and (task.do == "replace" or _needs(task) == "out")


def work_steps(history: History, task: Asked) -> tuple[int, ...]:
    """The steps that do this task: by its words where they are found, else all work on the component or joint."""
    thing = task.component or task.joint or ""
    steps = _steps_on(history, thing)
    if task.work is not None and task.work.steps:
        worded = tuple(step for step in steps if history.steps[step].text in task.work.steps)
        return worded or steps
    words = task.do.replace("-", " ")
    worded = tuple(step for step in steps if history.steps[step].text.lower().startswith(words))
    return worded or steps


def _steps_on(history: History, thing: str) -> tuple[int, ...]:
    steps = history.steps
    return tuple(index for index in history.working if thing in (steps[index].component, steps[index].joint))


def _worded(history: History, task: Asked) -> bool:
    texts = set(task.work.steps) if task.work is not None else set()
    return any(history.steps[step].text in texts for step in work_steps(history, task))


def _stays_closed(history: History, joint: str) -> bool:
    """Whether the joint's seal goes on before positioning, and neither of its ends is moved."""
    record = history.definitions.joints[joint]
    if record.seal is None or history.definitions.library.seals[record.seal].placed != "before-positioning":
        return False
    return not any(end in history.did["take"] for end in record.between)


def _needs(task: Asked) -> str:
    return task.work.needs if task.work is not None else "out"


def _taken_out(history: History, component: str) -> bool:
    return component in history.did["take"] and history.ends.get(component) == "out"


def _reached(history: History, task: Asked, step: int) -> bool:
    assert task.component is not None
    if _needs(task) == "out":
        return history.out(task.component, step)
    if _needs(task) == "in-place" or history.away(task.component, step):
        return True
    return not history.before_component(task.component, step)


def _done(history: History, task: Asked) -> bool:
    if task.joint is not None:
        return task.joint in history.did["remake"] and task.joint in history.did["undo"]
    if task.work is None:
        return task.component in history.did["fit"]
    texts = {history.steps[step].text for step in work_steps(history, task)}
    return bool(texts) and (texts >= set(task.work.steps) or not _worded(history, task))


def _speaks_of(text: str, task: Asked, definitions: Definitions) -> bool:
    """Whether the words of a refusal name this task: what is to be done, and to what."""
    if task.do.replace("-", " ") not in text and task.do not in text:
        return False
    if task.component is not None:
        component = definitions.components[task.component]
        return text.endswith((component.title.lower(), component.id))
    joint = definitions.joints[task.joint or ""]
    return text.endswith(((joint.title or joint.id).lower(), joint.id, joint.id.replace("-", " ")))


def _name(task: Asked) -> str:
    return f"{task.do} {task.component or task.joint}"


def _within_reach(task: Asked, definitions: Definitions) -> bool:
    """Whether the task can be done without lifting anything that is closed to the engineer. What can leave is grown
    from nothing until it grows no more; a larger set never stands in the way, so the order does not matter."""
    free: set[str] = set()
    while True:
        more = {one for one in definitions.components if one not in free and _can_leave(one, free, definitions)}
        if not more:
            break
        free |= more
    if task.joint is not None:
        return _can_undo(task.joint, free, definitions)
    assert task.component is not None
    if definitions.components[task.component].closed_to is not None:
        return False
    if needs_out(task):
        return _can_leave(task.component, free, definitions, ends="out")
    return _needs(task) == "in-place" or _is_clear(definitions.in_front(task.component), free, definitions)


def _can_leave(component: str, free: set[str], definitions: Definitions, ends: str | None = None) -> bool:
    record = definitions.components[component]
    if definitions.closed(component):
        return False
    for way in record.ways:
        if ends not in (None, way.ends):
            continue
        joints = definitions.undone_by(component, way)
        if _is_clear(way.behind, free, definitions) and all(_can_undo(joint, free, definitions) for joint in joints):
            return True
        for carrier in definitions.carriers(component):
            group = definitions.group(carrier)
            inside = [joint for joint in joints if set(definitions.joints[joint].between) <= group]
            if (
                carrier in free
                and _is_clear(_within(way, group - {carrier}), free, definitions, carrier)
                and all(_can_undo(joint, free, definitions) for joint in inside)
            ):
                return True
    return False


def _can_undo(joint: str, free: set[str], definitions: Definitions) -> bool:
    record = definitions.joints[joint]
    if definitions.sealed(joint):
        return False
    if _is_clear(record.behind, free, definitions):
        return True
    shared = [one for one in definitions.chain(record.between[0]) if one in definitions.chain(record.between[1])]
    return any(
        carrier in free
        and _is_clear(_within(record, definitions.group(carrier) - {carrier}), free, definitions, carrier)
        for carrier in shared
    )


def _within(thing: Way | Joint, group: frozenset[str]) -> tuple[tuple[str, ...], ...]:
    """What stands in its way at the bench, by its sets there or else those in place: of each, what travels along."""
    behind = thing.behind if thing.bench_behind is None else thing.bench_behind
    return tuple(tuple(one for one in front if one in group) for front in behind)


def _is_clear(
    behind: tuple[tuple[str, ...], ...], free: set[str], definitions: Definitions, carrier: str | None = None
) -> bool:
    """Whether one of the sets can be cleared; at the bench, by coming off the carrier."""

    def moves(one: str) -> bool:
        chain = definitions.chain(one)
        return any(link in free for link in (chain[: chain.index(carrier)] if carrier in chain else chain))

    return any(all(moves(one) for one in front) for front in behind)
