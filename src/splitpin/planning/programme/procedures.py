"""Procedures as acts: their steps are cut into legs where a wait begins and where the place changes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

from splitpin import units
from splitpin.planning.plant.doings import Make
from splitpin.planning.plant.elements import CONFIRM_S
from splitpin.planning.plant.operating import Operated, about
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme import wording
from splitpin.planning.programme.acts import Act, HandOver, Line, Prove, Release
from splitpin.records.plan_rows import StepAct
from splitpin.records.words import HAND_OVER

if TYPE_CHECKING:
    from splitpin.records.disturbance import Function
    from splitpin.records.plan import Action
    from splitpin.records.procedure import Condition, ProcedureStep, Proof


def make_acts(made: Make, plant: Plant, opened: frozenset[str]) -> list[Act]:
    """A condition as acts that follow one another; or its confirmation."""
    condition = made.condition
    lines: Iterable[tuple[Line, str | None]]
    if made.already:
        lines = [(Line("confirm", condition.confirm, CONFIRM_S, cautions=condition.cautions), None)]
    else:
        named = about(condition, plant, opened)
        lines = _with_sign(condition, _lines(condition.make, "make", plant, condition.cautions, named))
    return _legs(Act(made, "make-safe", (), condition=condition.id), lines)


def release_acts(made: Make, plant: Plant, opened: frozenset[str]) -> list[Act]:
    """A condition let go; none where nothing is done for it."""
    condition = made.condition
    lines = _lines(condition.release, "release", plant, (), about(condition, plant, opened))
    return _legs(Act(Release(made), "release", (), condition=condition.id), lines)


def proof_acts(proof: Proof, joints: Iterable[str], functions: Iterable[Function], plant: Plant) -> list[Act]:
    """A proof as acts that follow one another; its first line names these joints, and calls these functions."""
    lines = _lines(proof.step, "prove", plant, proof.cautions, Operated(()))
    acts = _legs(Act(Prove(proof), "prove", (), proof=proof.id), lines)
    named = "; ".join(dict.fromkeys(joints))
    if proof.names_joints and named:
        first, *others = acts[0].lines
        acts[0] = replace(acts[0], lines=(replace(first, text=f"{first.text.rstrip('.')}: {named}."), *others))
    first, *others = acts[0].lines
    for function in functions:
        call = StepAct(act="function", thing=function.id)
        first = replace(first, text=f"{first.text} {wording.function(function)}", acts=(*first.acts, call))
    acts[0] = replace(acts[0], lines=(first, *others))
    return acts


def operated_behind(component: str, acts: Iterable[Act], plant: Plant) -> Iterator[Act]:
    """The acts that set a point which stands behind this component."""
    behind = {p.id for p in plant.assembly.point if any(component in names for names in p.behind)}
    return (act for act in acts if behind and any(one.id in behind for line in act.lines for one in line.points))


def hand_over_acts(plant: Plant) -> list[Act]:
    """What every visit ends with; none where the catalogue has no such proof."""
    proof = plant.library.proofs.get(HAND_OVER)
    if proof is None:
        return []
    return _legs(Act(HandOver(), "hand-over", ()), _lines(proof.step, "record", plant, proof.cautions, Operated(())))


def _lines(
    steps: tuple[ProcedureStep, ...], action: Action, plant: Plant, cautions: tuple[str, ...], named: Operated
) -> Iterator[tuple[Line, str | None]]:
    """Each step as a line with its position; the procedure's own cautions go before the first."""
    for number, step in enumerate(steps):
        text, points = named.said(step, plant)
        line = Line(
            action,
            text,
            units.seconds(step.min),
            wait_s=units.seconds(step.wait_min),
            tools=plant.chosen(step.tools),
            consumables=step.consumables,
            cautions=(*(cautions if number == 0 else ()), *step.cautions),
            record=step.record,
            points=points,
            state=step.state,
        )
        yield line, step.position


def _with_sign(condition: Condition, lines: Iterable[tuple[Line, str | None]]) -> list[tuple[Line, str | None]]:
    """The sign that it holds, and what is done where it does not, said where it is read: at the last line with a blank,
    or else at the last.
    """
    found = list(lines)
    if condition.sign is None or condition.if_not is None:
        return found
    read = [number for number, (line, _) in enumerate(found) if line.record is not None]
    at = read[-1] if read else len(found) - 1
    line, position = found[at]
    text = f"{line.text} It holds when: {_lower(condition.sign)} If not: {_lower(condition.if_not)}"
    found[at] = (replace(line, text=text), position)
    return found


def _lower(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def _legs(whole: Act, lines: Iterable[tuple[Line, str | None]]) -> list[Act]:
    """Copies of an act, each with its share of the lines: a new one after every wait and at every change of place."""
    legs: list[Act] = []
    for position, placed in groupby(lines, key=lambda row: row[1]):
        leg: list[Line] = []
        for line, _ in placed:
            leg.append(line)
            if line.wait_s:
                legs.append(replace(whole, lines=tuple(leg), position=position, leg=len(legs)))
                leg = []
        if leg:
            legs.append(replace(whole, lines=tuple(leg), position=position, leg=len(legs)))
    return legs
