"""What hands do at a part of the plant, as acts: undo and remake, take and fit, and the work itself."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from splitpin.planning.plant import elements
from splitpin.planning.plant.doings import Doings, Lift, Undo, Work
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme import tightening, wording
from splitpin.planning.programme.acts import Act, Line, PutBack
from splitpin.records.words import BENCH

if TYPE_CHECKING:
    from splitpin.records.assembly import Joint


def undo_act(undo: Undo, plant: Plant, cautions: tuple[str, ...]) -> Act:
    """A joint undone; `cautions` are those of what it holds."""
    joint = undo.joint
    line = Line(
        "undo",
        wording.undo(joint, plant),
        undo.seconds[0],
        tools=undo.tools,
        cautions=(*plant.cautions_of_opening(joint), *joint.cautions, *cautions),
    )
    return Act(undo, "strip", (line,), undo.position, joint=joint.id)


def take_act(lift: Lift, plant: Plant) -> Act:
    """A component taken out, moved aside, or taken off its carrier at the bench."""
    component = lift.component
    people = lift.handling.people
    if lift.carrier is not None:
        text, cautions = wording.take_at_bench(component, lift.way, plant), component.cautions
    else:
        text = wording.take(component, lift.way, people, plant)
        cautions = (*plant.cautions_of_lifting(component), *component.cautions)
    line = Line("take", text, lift.handling.off_s, tools=lift.tools, cautions=cautions, people=people)
    return Act(lift, "strip", (line,), lift.position, component=component.id)


def work_act(work: Work, doings: Doings, plant: Plant) -> Act:
    """A task done, its time spread over its sentences."""
    wanted = work.wanted
    texts = wording.work(wanted)
    share, rest = divmod(work.seconds[0], len(texts))
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
        return Act(work, "work", lines, wanted.joint.position, joint=wanted.joint.id)
    assert wanted.component is not None
    component = wanted.component
    around = plant.carriers_of(component)
    carrier_is_out = any(isinstance(d, Lift) and d.ends == "out" and d.component.id in around for d in doings)
    away = wanted.work.needs == "out" or carrier_is_out
    position = wanted.work.position or (BENCH if away else component.position)
    return Act(work, "work", lines, position, component=component.id)


def fit_act(lift: Lift, sealed: Iterable[Joint], new: set[str], plant: Plant) -> Act:
    """A component put back, after the seals that go between its faces; `new` are the components that are replaced."""
    component = lift.component
    people = lift.handling.people
    is_new = component.id in new
    if lift.carrier is not None:
        new_carrier = component.carried_by in new
        text = wording.fit_at_bench(component, lift.way, plant, new=is_new, new_carrier=new_carrier)
    else:
        text = wording.fit(component, lift.way, people, new=is_new)
    cautions = component.cautions if lift.carrier is None else ()
    line = Line("fit", text, lift.handling.on_s, tools=lift.tools, cautions=cautions, people=people)
    lines = (*(_seal_line(joint, plant) for joint in sealed), line)
    return Act(PutBack(lift), "refit", lines, lift.position, component=component.id)


def remake_act(undo: Undo, plant: Plant, *, seal: bool) -> Act:
    """A joint closed; with its seal, unless that goes in before a part is fitted."""
    joint = undo.joint
    seals = (_seal_line(joint, plant),) if seal and joint.seal is not None else ()
    lines = (*seals, *tightening.lines(joint, plant))
    return Act(PutBack(undo), "refit", lines, undo.position, joint=joint.id)


def _seal_line(joint: Joint, plant: Plant) -> Line:
    assert joint.seal is not None
    seal = plant.library.seals[joint.seal]
    return Line(
        "seal",
        wording.new_seal(joint, plant),
        elements.seal_seconds(joint, plant.library),
        consumables=seal.consumables,
        seals=(joint.seal,),
        joint=joint.id,
    )
