"""Procedures as acts: their steps are cut into legs where a wait begins and where the place changes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import groupby
from typing import TYPE_CHECKING

from splitpin import units
from splitpin.planning.plant.doings import Make
from splitpin.planning.plant.elements import CONFIRM_S
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act, HandOver, Line, Prove, Release
from splitpin.records.words import HAND_OVER

if TYPE_CHECKING:
    from splitpin.records.plan import Action
    from splitpin.records.procedure import ProcedureStep, Proof


def make_acts(made: Make, plant: Plant) -> list[Act]:
    """A condition as acts that follow one another; or its confirmation."""
    condition = made.condition
    lines: Iterable[tuple[Line, str | None]]
    if made.already:
        lines = [(Line("confirm", condition.confirm, CONFIRM_S, cautions=condition.cautions), None)]
    else:
        lines = _lines(condition.make, "make", plant, condition.cautions)
    return _legs(Act(made, "make-safe", (), condition=condition.id), lines)


def release_acts(made: Make, plant: Plant) -> list[Act]:
    """A condition let go; none where nothing is done for it."""
    condition = made.condition
    lines = _lines(condition.release, "release", plant, ())
    return _legs(Act(Release(made), "release", (), condition=condition.id), lines)


def proof_acts(proof: Proof, joints: Iterable[str], plant: Plant) -> list[Act]:
    """A proof as acts that follow one another; its first line names these joints."""
    acts = _legs(Act(Prove(proof), "prove", (), proof=proof.id), _lines(proof.step, "prove", plant, proof.cautions))
    named = "; ".join(dict.fromkeys(joints))
    if proof.names_joints and named:
        first, *others = acts[0].lines
        acts[0] = replace(acts[0], lines=(replace(first, text=f"{first.text.rstrip('.')}: {named}."), *others))
    return acts


def hand_over_acts(plant: Plant) -> list[Act]:
    """What every visit ends with; none where the catalogue has no such proof."""
    proof = plant.library.proofs.get(HAND_OVER)
    if proof is None:
        return []
    return _legs(Act(HandOver(), "hand-over", ()), _lines(proof.step, "record", plant, proof.cautions))


def _lines(
    steps: tuple[ProcedureStep, ...], action: Action, plant: Plant, cautions: tuple[str, ...]
) -> Iterator[tuple[Line, str | None]]:
    """Each step as a line with its position; the procedure's own cautions go before the first."""
    for number, step in enumerate(steps):
        line = Line(
            action,
            step.text,
            units.seconds(step.min),
            wait_s=units.seconds(step.wait_min),
            tools=plant.chosen(step.tools),
            consumables=step.consumables,
            cautions=(*(cautions if number == 0 else ()), *step.cautions),
            record=step.record,
        )
        yield line, step.position


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
