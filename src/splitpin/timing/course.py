"""A plan with the acts that it was written from: what a step consists of, and which step waits for which wait.

A plan names its steps but not their acts, so the acts are laid out again from the plan's own opening, without any
search for an order, and laid beside the steps one by one. By hand: the step "Undo 4 screws" of 49 s at the front is
the act of that joint, 44 s, with one tool picked up, 5 s.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from splitpin.access.listing import openings
from splitpin.planning.asked.expand import Wanted, expand
from splitpin.planning.best.choose import Candidate, candidate_of
from splitpin.planning.best.schedule import Slot, schedule
from splitpin.planning.opening.graph import Graph, open_graph
from splitpin.planning.plant.keys import LIFTING, UNDOING, Doings, Key
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act, Line, Programme
from splitpin.planning.programme.strip import doings_of, in_place_before_carrier
from splitpin.records.library import Visit
from splitpin.records.plan import Plan, Step

STRIPPING = ("make-safe", "strip", "work")


@dataclass(frozen=True, slots=True)
class Done:
    """One act in its place: its steps, the tools it picked up, the way it walked, the acts whose waits it needs."""

    act: Act
    steps: tuple[Step, ...]
    picked: tuple[str, ...]
    walked_s: int
    waits_for: tuple[Key, ...]


@dataclass(frozen=True, slots=True)
class Course:
    """The acts of a plan in their order, strip before refit, and what they were made from; without acts, no graph."""

    plan: Plan
    plant: Plant
    wanted: tuple[Wanted, ...]
    done: tuple[Done, ...]
    graph: Graph | None
    candidate: Candidate | None


def course_of(plan: Plan, visit: Visit) -> Course:
    """The course of a plan that was made from this visit.

    ValueError when it was not: no act, no second of the plan is guessed. Cost: the openings of what the plan disturbs
    and nothing else, in cost order up to the plan's own; those that disturb all of it are laid out.
    """
    plant = Plant(visit)
    wanted = expand(visit).wanted
    if not plan.steps:
        return Course(plan, plant, wanted, (), None, None)
    graph = open_graph(plant, wanted)
    disturbed = _disturbed(plan)
    foreign = sum(1 << node for node, key in enumerate(graph.keys) if not _names([key]) <= disturbed)
    for opening in openings(graph.problem(), unwanted=lambda held: bool(held & foreign)):
        keys = [graph.keys[node] for node in opening.nodes]
        if _names(keys) != disturbed or _twice(keys):
            continue
        doings: Doings = in_place_before_carrier(doings_of(opening, graph), plant)
        candidate = candidate_of(opening, doings, graph, plant, wanted)
        done = _laid_beside(plan, candidate, plant)
        if done is not None:
            return Course(plan, plant, wanted, done, graph, candidate)
    raise ValueError(f"the plan of {plan.job} was not made from this visit")


def _disturbed(plan: Plan) -> set[tuple[str, str]]:
    return {
        *(("component", component.id) for component in plan.opened.components),
        *(("joint", joint) for joint in plan.opened.joints),
        *(("condition", condition.id) for condition in plan.conditions),
    }


def _names(keys: Sequence[Key]) -> set[tuple[str, str]]:
    sorts = {**dict.fromkeys(LIFTING, "component"), **dict.fromkeys(UNDOING, "joint"), "make": "condition"}
    return {(sorts[key[0]], key[1]) for key in keys if key[0] in sorts}


def _twice(keys: Sequence[Key]) -> bool:
    """Whether one thing is taken away in two ways, which no plan does."""
    moved = [(key[0] in LIFTING, key[1]) for key in keys if key[0] in (*LIFTING, *UNDOING)]
    return len(moved) != len(set(moved))


def _laid_beside(plan: Plan, candidate: Candidate, plant: Plant) -> tuple[Done, ...] | None:
    """The acts of both halves beside the steps; None where they are not the acts of these steps."""
    turn = next((i for i, step in enumerate(plan.steps) if step.phase not in STRIPPING), len(plan.steps))
    found: list[Done] = []
    for programme, steps in ((candidate.strip, plan.steps[:turn]), (candidate.refit.programme, plan.steps[turn:])):
        order = _order(steps, programme)
        if order is None:
            return None
        slots = schedule(programme, order, plant, steps[0].start_s if steps else 0)
        half = _half(slots, steps, programme, plant)
        if half is None:
            return None
        found += half
    return tuple(found)


def _order(steps: Sequence[Step], programme: Programme) -> tuple[int, ...] | None:
    """The acts' numbers in the order of the steps; of acts that read alike the first that may come goes first."""
    number = {key: index for index, key in enumerate(programme.acts)}
    left = dict(programme.acts)
    order = []
    at = 0
    while at < len(steps):
        for key, act in left.items():
            ready = not any(before in left for before in programme.before[key])
            if ready and _reads_as(act, steps[at : at + len(act.lines)]):
                order.append(number[key])
                at += len(act.lines)
                del left[key]
                break
        else:
            return None
    return None if left else tuple(order)


def _reads_as(act: Act, steps: Sequence[Step]) -> bool:
    return len(steps) == len(act.lines) and all(
        (step.phase, step.position, step.component, step.condition, step.proof)
        == (act.phase, act.position, act.component, act.condition, act.proof)
        and step.joint == (line.joint or act.joint)
        and (step.action, step.text, step.tools, step.wait_s, step.people)
        == (line.action, line.text, line.tools, line.wait_s, line.people)
        for step, line in zip(steps, act.lines, strict=True)
    )


def _half(slots: Sequence[Slot], steps: Sequence[Step], programme: Programme, plant: Plant) -> list[Done] | None:
    hands: frozenset[str] = frozenset()
    at = 0
    found = []
    for slot in slots:
        act = slot.act
        own = tuple(steps[at : at + len(act.lines)])
        at += len(act.lines)
        if not _takes(own, act.lines, slot):
            return None
        picked = tuple(tool for tool in act.tools if tool not in hands)
        if act.tools:
            hands = frozenset(act.tools)
        walked = slot.setup_s - sum(plant.pickup_s(tool) for tool in picked)
        waits = tuple(key for key in sorted(programme.before[act.key]) if programme.acts[key].wait_s)
        found.append(Done(act, own, picked, walked, waits))
    return found


def _takes(steps: Sequence[Step], lines: Sequence[Line], slot: Slot) -> bool:
    seconds = [line.seconds for line in lines]
    seconds[0] += slot.setup_s
    return steps[0].start_s == slot.start_s and [step.seconds for step in steps] == seconds
