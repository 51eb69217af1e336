"""Step 3, first half: making safe, stripping and the work itself, as acts with what comes before what.

The order of two acts follows from the opening that was chosen; three rules of the trade are added: what can be made
safe without waiting comes first, joints of one lift come apart by rank, and the work begins when everything is open.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from splitpin import units
from splitpin.access.result import Opening
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant import elements
from splitpin.planning.plant.doings import (
    Doing,
    Doings,
    Leg,
    Lift,
    LiftAtBench,
    Lifting,
    Make,
    Prove,
    Release,
    Undo,
    Undoing,
    Work,
)
from splitpin.planning.plant.plant import CONFIRM_S, Plant
from splitpin.planning.programme import wording
from splitpin.planning.programme.acts import Act, Ends, Line, Programme
from splitpin.records.plan import Action, Phase
from splitpin.records.words import BENCH

if TYPE_CHECKING:
    from splitpin.records.procedure import ProcedureStep


def doings_of(opening: Opening, graph: Graph) -> Doings:
    """Every doing of an opening with the doings that come straight before it, states passed through.

    In the order of the graph's keys.
    """
    keys = graph.keys
    earlier: dict[int, list[int]] = {}
    for a, b in opening.before:
        earlier.setdefault(b, []).append(a)

    def doings_before(node: int) -> set[Doing]:
        found: set[Doing] = set()
        for other in earlier.get(node, ()):
            key = keys[other]
            if isinstance(key, Doing):
                found.add(key)
            else:
                found |= doings_before(other)
        return found

    return {
        key: tuple(sorted(doings_before(node)))
        for node in sorted(opening.nodes)
        if isinstance(key := keys[node], Doing)
    }


def in_place_before_carrier(doings: Doings, plant: Plant) -> Doings:
    """The same doings, where what is taken or undone in place comes before the carrier that would take it along."""
    found = dict(doings)
    for carrier in doings:
        if not isinstance(carrier, Lifting) or not plant.carries(carrier.component.id) or carrier.ends != "out":
            continue
        group = plant.group(carrier.component)
        inside = [
            doing
            for doing in doings
            if (isinstance(doing, Lift) and doing.component.id in group and doing.component.id != carrier.component.id)
            or (isinstance(doing, Undo) and plant.inside(doing.joint, carrier.component))
        ]
        found[carrier] = tuple(sorted({*doings[carrier], *inside}))
    return found


def strip_programme(doings: Doings, plant: Plant) -> Programme:
    """The acts of the first half: conditions made, joints undone, components out, tasks done."""
    programme = Programme()
    ends: dict[Doing, Ends] = {}
    bearing = bearing_joints(doings, plant)
    warned = _cautions_at_fixings(doings, bearing, plant)
    for doing in doings:
        if isinstance(doing, Make):
            ends[doing] = programme.add_chain(make_acts(doing, plant))
        elif isinstance(doing, Lifting):
            act = _lift_act(doing, plant)
            if doing in bearing:
                undone = _undo_act(bearing[doing], plant, warned.get(bearing[doing], ()))
                act = replace(act, lines=(*(replace(line, joint=undone.joint) for line in undone.lines), *act.lines))
            ends[doing] = programme.add_chain([act])
        elif isinstance(doing, Undoing) and doing not in bearing.values():
            ends[doing] = programme.add_chain([_undo_act(doing, plant, warned.get(doing, ()))])
    for lift, joint in bearing.items():
        ends[joint] = ends[lift]
    for doing in doings:
        if isinstance(doing, Work):
            ends[doing] = programme.add_chain([_work_act(doing, plant, doings)])
    for doing, earlier in doings.items():
        for other in earlier:
            programme.require(ends[other].last, ends[doing].first)
    stripping = [act.key for act in programme.acts.values() if act.phase != "work"]
    for act in list(programme.acts.values()):
        if act.phase == "work":
            for key in stripping:
                programme.require(key, act.key)
    for earlier_joint, later_joint in in_turn(doings, plant):
        programme.prefer(ends[earlier_joint].last, ends[later_joint].first)
    _safe_before_touching(programme, doings, ends, plant)
    return programme


def bearing_joints(doings: Doings, plant: Plant) -> dict[Lifting, Undoing]:
    """For each lift the joint that is undone last, in one go with the lift, so that nothing hangs in the air.

    It is the last in the file among those of the highest rank that only this lift needs, at the position of the lift;
    a lift that comes after this one finds the joint undone and does not need it. Our own rule.
    """
    users = _users(doings)
    found = {}
    for doing in doings:
        if not isinstance(doing, Lifting):
            continue
        own = _loosening(doing, doings, plant)
        top = max((plant.rank(key.joint) for key in own), default=0)
        for key in own:
            last = users[key] == 1 and plant.rank(key.joint) == top
            if last and key.position == doing.position:
                found[doing] = key
    return found


def _loosening(lift: Lifting, doings: Doings, plant: Plant) -> list[Undoing]:
    """The joints that a lift undoes by itself, without those inside the group that travels with it."""
    return [key for key in _undone_by_itself(lift, doings) if not plant.inside(key.joint, lift.component)]


def _users(doings: Doings) -> dict[Doing, int]:
    """How many doings need each doing; a lift does not need the joints that the lifts before it undo."""
    users: dict[Doing, int] = {}
    for doing, earlier in doings.items():
        for key in _undone_by_itself(doing, doings) if isinstance(doing, Lifting) else earlier:
            users[key] = users.get(key, 0) + 1
    return users


def _cautions_at_fixings(
    doings: Doings, bearing: dict[Lifting, Undoing], plant: Plant
) -> dict[Undoing, tuple[str, ...]]:
    """The cautions of a component, and of what it guards or closes, with the joint that bears it, or else with all of
    the highest rank that only its lift needs: they are read before it comes loose. Our own rule.
    """
    users = _users(doings)
    found: dict[Undoing, tuple[str, ...]] = {}
    for doing in doings:
        if isinstance(doing, Lifting):
            own = [key for key in _loosening(doing, doings, plant) if users[key] == 1]
            top = max((plant.rank(key.joint) for key in own), default=0)
            fixing = [key for key in own if plant.rank(key.joint) == top]
            lifted = doing.component
            for key in [bearing[doing]] if doing in bearing else fixing:
                found[key] = (*found.get(key, ()), *plant.cautions_of_lifting(lifted), *lifted.cautions)
    return found


def _undone_by_itself(lift: Lifting, doings: Doings) -> list[Undoing]:
    """The joints that a lift undoes, in file order, without those that the lifts before it undo."""
    before = {key for other in doings[lift] if isinstance(other, Lifting) for key in doings[other]}
    return [key for key in doings if key in doings[lift] and isinstance(key, Undoing) and key not in before]


def _safe_before_touching(programme: Programme, doings: Doings, ends: dict[Doing, Ends], plant: Plant) -> None:
    """What is made safe without waiting comes before the first thing is undone: common practice, no source."""
    touching = [act.key for act in programme.acts.values() if act.phase == "strip"]
    waiting = {
        doing for doing in doings if isinstance(doing, Make) and any(step.wait_min for step in doing.condition.make)
    }
    for doing in doings:
        if isinstance(doing, Make) and not waiting & _closure(doing, doings):
            for key in touching:
                programme.prefer(ends[doing].last, key)


def _closure(doing: Doing, doings: Doings) -> set[Doing]:
    found = {doing}
    for other in doings[doing]:
        found |= _closure(other, doings)
    return found


def held_by(opening: Opening, graph: Graph) -> set[tuple[Make, Lifting | Undoing]]:
    """Pairs (condition, doing): the condition isolates what the doing opens, so it is released only when that is closed
    again.

    A condition that only a boundary asks for is not among them: it need not hold until the boundary is closed.
    """
    keys = graph.keys
    direct = {(keys[a], keys[b]) for a, b in opening.before if isinstance(keys[a], Make)}
    doings = doings_of(opening, graph)
    return {
        (other, doing)
        for doing, earlier in doings.items()
        for other in earlier
        if isinstance(other, Make) and not isinstance(doing, Make | Work) and (other, doing) not in direct
    }


def in_turn(doings: Doings, plant: Plant) -> list[tuple[Undoing, Undoing]]:
    """Pairs of joints of one lift, the one that comes apart first before the other.

    The lower rank comes first; of joints that are alike (reached alike, with the same tools at the same position) the
    first in the file: to change them about would change nothing but names. Our own rule.
    """
    file_order = {joint.id: number for number, joint in enumerate(plant.assembly.joint)}
    pairs = []
    for doing in doings:
        if isinstance(doing, Lifting):
            undone = _undone_by_itself(doing, doings)
            ranks = {key: plant.rank(key.joint) for key in undone}
            pairs += [(a, b) for a in undone for b in undone if ranks[a] < ranks[b]]
            alike: dict[tuple[object, ...], Undoing] = {}
            for key in sorted(undone, key=lambda key: file_order[key.joint.id]):
                tools = plant.chosen(plant.fixing(key.joint).tools)
                same = (ranks[key], tools, key.position, doings[key])
                if same in alike:
                    pairs.append((alike[same], key))
                alike[same] = key
    return pairs


def make_acts(doing: Make, plant: Plant) -> list[Act]:
    """A condition as acts that follow one another, cut where a wait begins; or its confirmation."""
    condition = doing.condition
    if plant.already(condition.id):
        line = Line("confirm", condition.confirm, CONFIRM_S, cautions=condition.cautions)
        return [Act(Leg(doing, 0), "make-safe", (line,), condition=condition.id)]
    return legs(condition.make, doing, "make-safe", "make", plant, condition.cautions, condition=condition.id)


def legs(
    steps: tuple[ProcedureStep, ...],
    doing: Make | Release | Prove,
    phase: Phase,
    action: Action,
    plant: Plant,
    cautions: tuple[str, ...],
    *,
    condition: str | None = None,
    proof: str | None = None,
) -> list[Act]:
    """Procedure steps as acts: a new act after every wait and at every change of position; cautions go before the first
    line.
    """
    acts: list[Act] = []
    lines: list[Line] = []
    position: str | None = None

    def close() -> None:
        nonlocal lines
        if lines:
            acts.append(Act(Leg(doing, len(acts)), phase, tuple(lines), position, condition=condition, proof=proof))
            lines = []

    for number, step in enumerate(steps):
        if step.position != position:
            close()
            position = step.position
        lines.append(
            Line(
                action,
                step.text,
                units.seconds(step.min),
                wait_s=units.seconds(step.wait_min),
                tools=plant.chosen(step.tools),
                consumables=step.consumables,
                cautions=(*(cautions if number == 0 else ()), *step.cautions),
                record=step.record,
            )
        )
        if step.wait_min:
            close()
    close()
    return acts


def _lift_act(doing: Lifting, plant: Plant) -> Act:
    component = doing.component
    if isinstance(doing, LiftAtBench):
        time = elements.handling(component, None, plant.load_kg(component), plant.library)
        text = wording.take_at_bench(component, plant)
        line = Line("take", text, time.off_s, cautions=component.cautions, people=time.people)
        return Act(doing, "strip", (line,), doing.position, component=component.id)
    way = doing.way
    time = elements.handling(component, way, plant.load_kg(component), plant.library)
    line = Line(
        "take",
        wording.take(component, way, time.people, plant),
        time.off_s,
        tools=plant.chosen(way.tools),
        cautions=(*plant.cautions_of_lifting(component), *component.cautions),
        people=time.people,
    )
    return Act(doing, "strip", (line,), doing.position, component=component.id)


def _undo_act(doing: Undoing, plant: Plant, cautions: tuple[str, ...]) -> Act:
    joint = doing.joint
    fixing = plant.fixing(joint)
    line = Line(
        "undo",
        wording.undo(joint, plant),
        elements.undo_seconds(joint, fixing),
        tools=plant.chosen(fixing.tools),
        cautions=(*plant.cautions_of_opening(joint), *joint.cautions, *cautions),
    )
    return Act(doing, "strip", (line,), doing.position, joint=joint.id)


def _work_act(doing: Work, plant: Plant, doings: Doings) -> Act:
    wanted = doing.wanted
    texts = wording.work(wanted)
    total = elements.work_seconds(wanted.work)
    share, rest = divmod(total, len(texts))
    tools = plant.chosen(wanted.work.tools)
    lines = tuple(
        Line(
            "work",
            text,
            share + (rest if number == 0 else 0),
            tools=tools,
            consumables=wanted.work.consumables if number == 0 else (),
            cautions=wanted.work.cautions if number == 0 else (),
        )
        for number, text in enumerate(texts)
    )
    if wanted.joint is not None:
        return Act(doing, "work", lines, wanted.joint.position, joint=wanted.joint.id)
    assert wanted.component is not None
    component = wanted.component
    away = wanted.work.needs == "out" or plant.carrier_is_out(component, doings)
    position = wanted.work.position or (BENCH if away else component.position)
    return Act(doing, "work", lines, position, component=component.id)
