"""The course of a plan: the acts that its steps were written from, in their order, with what each fetched and awaits.

By hand: the step "Undo 4 screws" of 49 s at the front is the act of that joint, 44 s, with one tool picked up, 5 s.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.planning.asked.expand import Wanted
from splitpin.planning.best.choose import Choice
from splitpin.planning.best.schedule import Slot
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act
from splitpin.planning.written.why import Why

if TYPE_CHECKING:
    from splitpin.records.plan import Step


@dataclass(frozen=True, slots=True)
class Done:
    """One act in its place, and the steps that it was written as, a step a line."""

    slot: Slot
    steps: tuple[Step, ...]

    @property
    def act(self) -> Act:
        """What is done."""
        return self.slot.act


@dataclass(frozen=True, slots=True)
class Course:
    """The acts of a plan, strip before refit, and what they were made from: the choice, and why each doing is in it."""

    plant: Plant
    wanted: tuple[Wanted, ...]
    choice: Choice
    why: Why
    done: tuple[Done, ...]
