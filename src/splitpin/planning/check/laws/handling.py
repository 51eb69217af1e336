"""Laws 23 to 30: what cautions order, catch and dirt, weight and marks, the new part, stop lines, waits, the place."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from splitpin import units
from splitpin.planning.check.cautions import due, releases
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.laws.case import Case, broken, says
from splitpin.planning.check.tasks import work_steps

if TYPE_CHECKING:
    from splitpin.records.assembly import Component


def ordered(case: Case) -> Iterator[Fault]:
    """Law 23. What a caution orders is in the plan: what is done is a step, what is worn or laid is on the tool list
    from the first step that it guards."""
    library, listed = case.definitions.library, {row.id: row.from_step for row in case.plan.tools}
    told: set[str] = set()
    for index, step in enumerate(case.steps):
        for caution in (library.cautions[one.id] for one in step.cautions if one.id in library.cautions):
            if caution.id in told:
                continue
            told.add(caution.id)
            for tool in (*caution.wear, *caution.lay):
                since = listed.get(tool)
                if since is None or since > step.n:
                    yield broken(23, index, f"{caution.id} orders {tool}, which is not on the list from here")
            for tool in caution.lay:
                if not any(at <= index for at in case.acts("lay", tool, library.tools[tool].title)):
                    yield broken(23, index, f"no step lays the {tool} that {caution.id} orders")
            for text in caution.act:
                if not any(says(case.steps[at], text) for at in range(index + 1)):
                    yield broken(23, index, f"no step does what {caution.id} orders: {text}")


def caught(case: Case) -> Iterator[Fault]:
    """Law 24. What holds liquid gets its catch before its first joint; what sheds dirt comes before the cleaning of
    what catches it, which stays in place."""
    library = case.definitions.library
    for name, joints in case.opened.items():
        undone = case.history.did["undo"][joints[0]][0]
        for choice in library.media[case.definitions.circuits[name].medium].catch:
            laid = [at for tool in choice for at in case.acts("catch", tool, library.tools[tool].title)]
            if not any(at <= undone for at in laid):
                yield broken(24, undone, f"{name} is opened without {' or '.join(choice)} in place")
    for component in case.definitions.assembly.component:
        work = case.history.did["work"].get(component.id, ())
        for below in component.sheds_into if work else ():
            cleaned = case.history.did["work"].get(below, ())
            if cleaned and cleaned[0] < work[-1]:
                yield broken(24, cleaned[0], f"{below} is cleaned before {component.id} has shed its dirt into it")
            if any(case.history.away(below, index) for index in work):
                yield broken(24, work[0], f"{below}, which catches the dirt of {component.id}, is not in place")


def marked(case: Case) -> Iterator[Fault]:
    """Law 25. Fixings that bear weight come last and with the lift in one go; what passes something fragile is drawn
    straight; what can go back wrong is marked before it is undone and matched after."""
    for lift in case.lifted:
        bearing = [joint for joint in lift.joints if case.definitions.joints[joint].bears]
        steps = [case.history.did["undo"][joint][0] for joint in bearing]
        if steps and lift.taken - min(steps) != len(steps):
            yield broken(25, min(steps), f"{lift.component} hangs loose: its last fixings and its lift are not one go")
        component = case.definitions.components[lift.component]
        for index in (lift.taken, lift.fitted) if component.passes else ():
            if index < len(case.steps) and not says(case.steps[index], component.passes or "", "straight"):
                yield broken(25, index, f"{lift.component} is not drawn straight past {component.passes}")
        first = min([lift.taken, *(case.history.did["undo"][joint][0] for joint in lift.joints)])
        last = max([lift.fitted, *(case.history.back("remake", joint) for joint in lift.joints)])
        for one in sorted(case.definitions.group(lift.component)) if component.orientation else ():
            if one == lift.component:
                yield from _matched(case, component, first, lift.fitted, last)


def _matched(case: Case, component: Component, first: int, fitted: int, last: int) -> Iterator[Fault]:
    words = component.orientation or ""
    if not any(index < first for index in case.acts("mark", component.id, words)):
        yield broken(25, first, f"{component.id} is undone before {words} is marked")
    if not any(fitted <= index for index in case.acts("match", component.id, words)):
        yield broken(25, min(last, len(case.steps) - 1), f"{words} of {component.id} is not matched")


def compared(case: Case) -> Iterator[Fault]:
    """Law 26. The new part is compared before the plant is opened or drained; its line on the pick list says what
    must match."""
    for name in sorted({task.component for task in case.doing if task.do == "replace" and task.component is not None}):
        component = case.definitions.components[name]
        if not component.must_match:
            continue
        rows = [row for row in case.plan.parts if row.part == component.part]
        if not any(set(component.must_match) <= set(row.must_match) for row in rows):
            yield broken(26, None, f"the line of {component.part} does not say what must match")
        drained = [i for i, step in enumerate(case.steps) for one in step.points
                   if one.to == "open" and one.id in case.points and case.points[one.id].role == "drains"]  # fmt: skip
        opened = [steps[0] for action in ("undo", "take") for steps in case.history.did[action].values()]
        first = min([*drained, *opened], default=len(case.steps))
        if not any(index < first for index in case.acts("compare", name, *component.must_match)):
            yield broken(26, first, f"the new {name} is not compared before the plant is opened or drained")


def stop_lines(case: Case) -> Iterator[Fault]:
    """Law 27. What lies beside the work and stays shut is printed with a stop line."""
    where = {step.position for step in case.steps if step.action in ("undo", "take", "work")}
    printed = {row.component: row.text for row in case.plan.stop_lines}
    for component in case.definitions.assembly.component:
        shut = component.id not in case.touched and component.position in where
        if shut and (component.stop_line or component.closed_to) and not printed.get(component.id):
            yield broken(27, None, f"{component.id} stays shut beside the work without a stop line")
        if shut and component.stop_line and printed.get(component.id, component.stop_line) != component.stop_line:
            yield broken(27, None, f"{component.id} has another stop line than its own")


def waited(case: Case) -> Iterator[Fault]:
    """Law 28. Drying, draining and setting are waits; tools hang on the step that uses them; what is used only if a
    reading says so is conditional on the list."""
    for task in case.doing:
        if task.work is not None and task.work.wait_min:
            last = work_steps(case.history, task)[-1:]
            for index in last:
                if case.steps[index].wait_s != units.seconds(task.work.wait_min):
                    yield broken(28, index, f"{task.do} waits {case.steps[index].wait_s} s")
    conditional, used = set[str](), set[str]()
    for index, line in case.lines.items():
        (used if line.only_if is None else conditional).update(line.consumables)
        if line.only_if is not None and line.only_if.says not in (case.steps[index].only_if or ""):
            yield broken(
                28, index, f"is done only if {line.only_if.reading} is {line.only_if.says}, and does not say so"
            )
    used |= {one for task in case.doing if task.work is not None for one in (*task.work.consumables, *task.work.parts)}
    for row in case.plan.parts:
        if row.part in conditional - used and (row.certain or not row.only_if):
            yield broken(28, None, f"{row.part} is used only if a reading says so, and is listed as certain")
    in_hand = {tool for step in case.steps for tool in step.tools}
    for tool in case.plan.tools:
        if tool.id not in in_hand and tool.from_step is None:
            yield broken(28, None, f"no step uses {tool.id}")


def of_the_place(case: Case) -> Iterator[Fault]:
    """Law 29. Facts of the place bring their conditions, cautions, proofs and people."""
    said = {caution.id for step in case.steps for caution in step.cautions}
    for name in case.definitions.visit.job.site.facts:
        fact = case.definitions.library.facts[name]
        for condition in fact.conditions:
            if not case.made(condition):
                yield broken(29, None, f"{name} asks for {condition}: never made")
        for caution in fact.cautions:
            if caution not in said:
                yield broken(29, None, f"{name} asks for {caution}: never said")
        for proof in fact.proofs:
            if proof not in case.history.did["prove"]:
                yield broken(29, None, f"{name} asks for {proof}: not proved")
        if fact.people is not None and case.plan.people < fact.people:
            yield broken(29, None, f"{name} takes {fact.people} people, the plan has {case.plan.people}")


def said_once(case: Case) -> Iterator[Fault]:
    """Law 30. Each caution stands once, before the step that it guards; none that cannot apply."""
    wanted: dict[str, list[int]] = {}
    for name, index in due(case.history, case.lifted, case.doing):
        wanted.setdefault(name, []).append(index)
    of_place = {
        one for fact in case.definitions.visit.job.site.facts for one in case.definitions.library.facts[fact].cautions
    }
    said: dict[str, list[int]] = {}
    for index, step in enumerate(case.steps):
        for caution in step.cautions:
            said.setdefault(caution.id, []).append(index)
    for name, places in said.items():
        for earlier, later in pairwise(places):
            if not any(earlier < end <= later for end in releases(case.history, name)):
                yield broken(30, later, f"{name} is said a second time")
        for index in places:
            if name not in of_place and not any(index <= step for step in wanted.get(name, ())):
                yield broken(30, index, f"{name} is said, and no later step meets it")
