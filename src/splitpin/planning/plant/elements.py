"""Seconds of every element of a plan: pieces of hardware, seals, handling by mass, work, procedures."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from splitpin import units
from splitpin.hardware.fixing import Fixing

if TYPE_CHECKING:
    from splitpin.records.assembly import Component, Joint, Way, Work
    from splitpin.records.library import Library
    from splitpin.records.procedure import ProcedureStep

CONFIRM_S = 60  # to confirm that a condition holds which the job says holds already: common practice, no source
LIGHT_KG = 0.5  # taken for a component without a mass: a cover, a lead; common practice, no source


@dataclass(frozen=True, slots=True)
class Handling:
    """Seconds to take a component away and put it back, and the people it takes."""

    off_s: int
    on_s: int
    people: int


def handling(component: Component, way: Way, load_kg: float, library: Library) -> Handling:
    """What the way says, else the handling row of the mass that moves with the component (kg, all it carries included).

    Above the heaviest row its people and times hold; the notice about the lift is planning's to give.
    """
    rows = library.handling
    row = next((row for row in rows if load_kg <= row.up_to_kg), rows[-1])
    aside = way.ends == "aside"  # still hanging on its hinge: nobody carries it
    return Handling(
        row.off_s if way.off_s is None else way.off_s,
        row.on_s if way.on_s is None else way.on_s,
        way.people or (1 if aside else row.people),
    )


def mass(component: Component) -> float:
    """The component's mass in kg, or a light one's where none is given."""
    return component.mass_kg or LIGHT_KG


def undo_seconds(joint: Joint, fixing: Fixing) -> int:
    """All pieces of a joint off."""
    return joint.count * fixing.off_s


def remake_seconds(joint: Joint, fixing: Fixing) -> int:
    """All pieces of a joint on, its seal apart."""
    return joint.count * fixing.on_s


def seal_seconds(joint: Joint, library: Library) -> int:
    """The faces cleaned and the seals put in; 0 for a joint without one."""
    if joint.seal is None:
        return 0
    return joint.seal_count * library.seals[joint.seal].seconds


def work_seconds(work: Work) -> int:
    """The planning time of a task: the mean (low + 4 mode + high) / 6, rounded half up to whole seconds.

    Source: the three-point formula of the programme evaluation and review technique, D. G. Malcolm and others,
    Operations Research 7 (1959) 646-669.
    """
    spread = work.min
    mean = (Fraction(str(spread.low)) + 4 * Fraction(str(spread.mode)) + Fraction(str(spread.high))) / 6
    return units.seconds(float(mean))


def step_seconds(steps: tuple[ProcedureStep, ...]) -> int:
    """Hands-on seconds of a list of procedure steps."""
    return sum(units.seconds(step.min) for step in steps)
