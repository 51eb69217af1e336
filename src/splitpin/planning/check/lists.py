"""Whether the lists of a plan say what its steps use: parts, tools, people, licences, conditions, what is opened.

Reading of the definitions. A part on the list for two reasons may stand in one row or in several. Hardware that is
renewed is counted by the pieces of the joint; hardware that is inspected or counted in uses is counted so, too, and
listed as uncertain. A task's own parts are listed under any kind. Consumables are listed when anything used names
them; their quantity is free. The licence of a medium is needed when one of its circuits is opened, and may be listed
when the medium is only guarded; that of a condition that is only confirmed may be listed too.
"""

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.planning.check.access import Lift
from splitpin.planning.check.definitions import Asked, Definitions
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.planning.check.procedures import procedure_lines
from splitpin.records.plan import Plan, Step

if TYPE_CHECKING:
    from splitpin.records.base import Id


def list_faults(history: History, plan: Plan, lifted: tuple[Lift, ...], doing: tuple[Asked, ...]) -> Iterator[Fault]:
    """Rows that are missing, too many or wrong in any of the plan's lists."""
    yield from _opened_faults(history, plan)
    yield from _part_faults(history, plan, doing)
    yield from _consumable_faults(history, plan, doing)
    yield from _tool_faults(history, plan, doing)
    yield from _people_faults(history, plan, lifted)
    yield from _licence_faults(history, plan, lifted)


def _differ(rule: str, what: str, found: set[str], wanted: set[str]) -> Iterator[Fault]:
    for one in sorted(wanted - found):
        yield Fault(None, rule, f"{what} {one} is not listed")
    for one in sorted(found - wanted):
        yield Fault(None, rule, f"{what} {one} is listed, and the steps do not use it")


def _opened_faults(history: History, plan: Plan) -> Iterator[Fault]:
    joints = set(history.did["undo"])
    circuits = {name for joint in joints if (name := history.definitions.joints[joint].circuit) is not None}
    yield from _differ("opened", "joint", set(plan.opened.joints), joints)
    yield from _differ("opened", "circuit", set(plan.opened.circuits), circuits)
    made = {*history.did["make"], *history.did["confirm"]}
    yield from _differ("conditions", "condition", {row.id for row in plan.conditions}, made)
    for row in plan.conditions:
        if row.already != (row.id in history.did["confirm"]):
            yield Fault(None, "conditions", f"{row.id} is listed as {'' if row.already else 'not '}already there")


def _part_faults(history: History, plan: Plan, doing: tuple[Asked, ...]) -> Iterator[Fault]:
    definitions = history.definitions
    sure: Counter[tuple[str, str]] = Counter()
    perhaps: Counter[tuple[str, str]] = Counter()
    optional: set[str] = set()
    for joint in history.did["undo"]:
        record, fixing = definitions.joints[joint], definitions.fixing(joint)
        if record.seal is not None:
            seal = definitions.library.seals[record.seal]
            (sure if seal.policy == "renew" else perhaps)[seal.part or seal.id, "seal"] += record.seal_count
        if fixing.part is not None and fixing.reuse == "renew":
            sure[fixing.part, "single-use"] += record.count
        elif fixing.part is not None and fixing.reuse != "reusable":
            perhaps[fixing.part, "single-use"] += record.count
    for task in doing:
        if task.do == "replace" and task.component is not None:
            part = definitions.components[task.component].part
            if part is not None:
                sure[part, "replace"] += 1
        for part in task.work.parts if task.work is not None else ():
            optional.add(part)
            if all(row.part != part for row in plan.parts):
                yield Fault(None, "parts", f"{part}, which {task.do} {task.component} uses, is not listed")
    listed: Counter[tuple[str, str]] = Counter()
    certain: Counter[tuple[str, str]] = Counter()
    for row in plan.parts:
        if row.kind != "consumable":
            listed[row.part, row.kind] += row.quantity
            certain[row.part, row.kind] += row.quantity * row.certain
    for key in sorted({*sure, *perhaps, *listed}):
        want, found = sure[key] + perhaps[key], listed[key]
        if found != want and not (key[0] in optional and found > want):
            yield Fault(None, "parts", f"{found} × {key[0]} listed ({key[1]}), not {want}")
        elif certain[key] < sure[key] or (not sure[key] and certain[key] and key[0] not in optional):
            yield Fault(None, "parts", f"{key[0]} ({key[1]}) is listed as the wrong one of certain and uncertain")


def _consumable_faults(history: History, plan: Plan, doing: tuple[Asked, ...]) -> Iterator[Fault]:
    definitions = history.definitions
    wanted: set[Id] = set()
    for joint in history.did["undo"]:
        wanted.update(definitions.fixing(joint).consumables)
        seal = definitions.joints[joint].seal
        wanted.update(() if seal is None else definitions.library.seals[seal].consumables)
    for task in doing:
        wanted.update(() if task.work is None else task.work.consumables)
    for _, line in procedure_lines(history):
        wanted.update(line.consumables)
    found = {row.part for row in plan.parts if row.kind == "consumable"}
    yield from _differ("consumables", "consumable", found, wanted)


def _tool_faults(history: History, plan: Plan, doing: tuple[Asked, ...]) -> Iterator[Fault]:
    definitions = history.definitions
    used = {tool for step in plan.steps for tool in step.tools}
    cautions = (definitions.library.cautions.get(one.id) for step in plan.steps for one in step.cautions)
    ordered = {tool for caution in cautions if caution is not None for tool in (*caution.wear, *caution.lay)}
    worn = {tool.id for tool in plan.tools if tool.from_step is not None} & ordered
    yield from _differ("tools", "tool", {tool.id for tool in plan.tools}, used | worn)
    for action in ("undo", "remake"):
        for joint, steps in history.did[action].items():
            yield from _without(history, action, joint, steps, definitions.fixing(joint).tools)
    for index, line in procedure_lines(history):
        yield from _without(history, "this", "step", (index,), line.tools)
    for task in doing:
        if task.work is not None and task.component is not None:
            yield from _without(
                history, "work", task.component, history.did["work"].get(task.component, ()), task.work.tools
            )


def _without(
    history: History, action: str, thing: str, steps: tuple[int, ...], needs: tuple[tuple[str, ...], ...]
) -> Iterator[Fault]:
    """Of every need, one tool is named by one of the steps."""
    named = {tool for step in steps for tool in history.steps[step].tools}
    for choice in needs:
        if steps and not named & set(choice):
            yield Fault(steps[0] + 1, "tools", f"{action} {thing} without {' or '.join(choice)}")


def _people_faults(history: History, plan: Plan, lifted: tuple[Lift, ...]) -> Iterator[Fault]:
    for lift in lifted:
        wanted = history.definitions.people(lift.component, lift.way)
        for step in (lift.taken, lift.fitted):
            if step < len(plan.steps) and plan.steps[step].people < wanted:
                yield Fault(step + 1, "people", f"{lift.component} takes {wanted} people")
    most = max((step.people for step in plan.steps), default=1)
    if plan.people not in (most, max(most, history.definitions.visit.job.job.people)):
        yield Fault(None, "people", f"the plan says {plan.people} people, its steps {most}")


def _licence_faults(history: History, plan: Plan, lifted: tuple[Lift, ...]) -> Iterator[Fault]:
    definitions, library = history.definitions, history.definitions.library
    media = {definitions.circuits[name].medium for joint in history.did["undo"]
             if (name := definitions.joints[joint].circuit) is not None}  # fmt: skip
    bared = {medium for lift in lifted for one in definitions.group(lift.component)
             for medium in definitions.components[one].guards}  # fmt: skip
    must = {library.media[medium].licence for medium in media}
    must |= {library.conditions[one].licence for action in ("make", "release") for one in history.did[action]}
    must |= {library.proofs[one].licence for one in history.did["prove"]}
    may = must | {library.media[medium].licence for medium in bared}
    may |= {library.conditions[one].licence for one in history.did["confirm"]}
    found = {row.id for row in plan.licences}
    yield from _differ("licences", "licence", found, ({one for one in must if one} | (found & may)))
    for row in plan.licences:
        wanted = {step.n for step in plan.steps if row.id in _asked_by(step, definitions)}
        if set(row.steps) != wanted:
            yield Fault(None, "licences", f"{row.id} is listed for other steps than those that take it")


def _asked_by(step: Step, definitions: Definitions) -> set[str | None]:
    """The licences that a step's joint, condition and proof take."""
    library, circuit = definitions.library, None
    if step.joint in definitions.joints:
        circuit = definitions.joints[step.joint].circuit
    medium = library.media[definitions.circuits[circuit].medium] if circuit is not None else None
    condition, proof = library.conditions.get(step.condition or ""), library.proofs.get(step.proof or "")
    return {row.licence for row in (medium, condition, proof) if row is not None}
