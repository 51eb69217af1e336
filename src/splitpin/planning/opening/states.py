"""States that several doings can bring about: what lies between a doing and those that come before it in the graph."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Literal

from splitpin.planning.plant.doings import Doing

if TYPE_CHECKING:
    from splitpin.notices import Place
    from splitpin.records.assembly import Circuit, Component, Joint
    from splitpin.records.catalogue import Medium

Reach = Literal["out", "out in place", "clear", "moved", "aside", "aside at the bench", "clear at the bench"]
"""How far a component is out of the way: right out, there or at the bench; right out in place; clear in place, in
whatever way; moved or aside, while a carrier around it stays; or aside or clear on a carrier that is at the bench."""


@dataclass(frozen=True, slots=True, eq=False)
class Away:
    """A component is out of the way; `carrier` is what stays around it, or what is at the bench with it."""

    component: Component
    reach: Reach
    carrier: Component | None = None
    seconds: ClassVar[tuple[int, int]] = (0, 0)

    @property
    def phrase(self) -> str:
        """In a sentence: `the pump`."""
        return f"the {self.component.title}"

    @property
    def place(self) -> Place:
        """Where the component stands in its file."""
        return self.component.place


@dataclass(frozen=True, slots=True, eq=False)
class Undone:
    """A joint is undone, in place or at the bench."""

    joint: Joint
    title: str
    seconds: ClassVar[tuple[int, int]] = (0, 0)

    @property
    def phrase(self) -> str:
        """In a sentence: `the joint motor head to volute`."""
        return f"the joint {self.title}"

    @property
    def place(self) -> Place:
        """Where the joint stands in its file."""
        return self.joint.place


@dataclass(frozen=True, slots=True, eq=False)
class Isolated:
    """A circuit is isolated, with all that comes before it is opened."""

    circuit: Circuit
    title: str
    seconds: ClassVar[tuple[int, int]] = (0, 0)

    @property
    def phrase(self) -> str:
        """In a sentence."""
        return f"the isolated {self.circuit.id}"

    @property
    def place(self) -> Place:
        """Where the circuit stands in its file."""
        return self.circuit.place


@dataclass(frozen=True, slots=True, eq=False)
class Bared:
    """A medium may be bared, as far as the medium asks for it, or one circuit that the guard covers."""

    medium: Medium
    circuit: Circuit | None
    seconds: ClassVar[tuple[int, int]] = (0, 0)

    @property
    def phrase(self) -> str:
        """In a sentence."""
        return f"the bared {self.medium.id}"

    @property
    def place(self) -> Place:
        """Where the medium stands in its file."""
        return self.medium.place


State = Away | Undone | Isolated | Bared
Node = Doing | State
