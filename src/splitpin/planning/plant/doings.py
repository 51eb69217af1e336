"""What is done to a plant, each once, and what several doings bring about: from the opening to the last step.

By hand: to replace a pump (`Work`) it must be out (`Out`), which one `Lift` brings about, after an `Undo` for each of
its joints; then come `Remake` and `Fit`, and what was made safe (`Make`) is let go (`Release`) and proved (`Prove`).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar, Literal

from splitpin.planning.asked.expand import Wanted
from splitpin.records.words import BENCH

if TYPE_CHECKING:
    from splitpin.notices import Place
    from splitpin.records.assembly import Circuit, Component, Joint, Way
    from splitpin.records.catalogue import Medium
    from splitpin.records.procedure import Condition, Proof


@dataclass(frozen=True, eq=False, slots=True)
class Node:
    """Equal to another of its kind about the same thing; sorted by kind and ids, so that no order hangs on memory."""

    key: tuple[str, ...] = field(init=False, repr=False)
    kind: ClassVar[str]

    def __post_init__(self) -> None:
        object.__setattr__(self, "key", (self.kind, *self._ids()))

    def _ids(self) -> tuple[str, ...]:
        raise NotImplementedError

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Node) and self.key == other.key

    def __hash__(self) -> int:
        return hash(self.key)

    def __lt__(self, other: Node) -> bool:
        return self.key < other.key

    @property
    def title(self) -> str:
        """What it is about, as the sheet calls it; of a joint, its two ends are asked of the plant."""
        raise NotImplementedError

    @property
    def place(self) -> Place:
        """Where the files speak of it."""
        raise NotImplementedError


@dataclass(frozen=True, eq=False, slots=True)
class OfComponent(Node):
    """Something about one component."""

    component: Component

    def _ids(self) -> tuple[str, ...]:
        return (self.component.id,)

    @property
    def title(self) -> str:
        """The component's title."""
        return self.component.title

    @property
    def place(self) -> Place:
        """The component's place."""
        return self.component.place


@dataclass(frozen=True, eq=False, slots=True)
class OfJoint(Node):
    """Something about one joint."""

    joint: Joint

    def _ids(self) -> tuple[str, ...]:
        return (self.joint.id,)

    @property
    def place(self) -> Place:
        """The joint's place."""
        return self.joint.place


@dataclass(frozen=True, eq=False, slots=True)
class OfCondition(Node):
    """Something about one condition."""

    condition: Condition

    def _ids(self) -> tuple[str, ...]:
        return (self.condition.id,)

    @property
    def title(self) -> str:
        """The condition's title."""
        return self.condition.title

    @property
    def place(self) -> Place:
        """The condition's place."""
        return self.condition.place


# -- doings of the first half


@dataclass(frozen=True, eq=False, slots=True)
class Lift(OfComponent):
    """A component taken out or moved aside by one of its ways, by its number."""

    number: int
    kind = "lift"

    def _ids(self) -> tuple[str, ...]:
        return (self.component.id, str(self.number))

    @property
    def way(self) -> Way:
        """The way it goes."""
        return self.component.ways[self.number]

    @property
    def ends(self) -> Literal["out", "aside"]:
        """`out` or `aside`."""
        return self.way.ends

    @property
    def position(self) -> str:
        """Where it is done."""
        return self.component.position


@dataclass(frozen=True, eq=False, slots=True)
class LiftAtBench(OfComponent):
    """A carried component taken off its carrier once that is out."""

    kind = "bench"
    ends: ClassVar[Literal["out", "aside"]] = "out"
    position: ClassVar[str] = BENCH


@dataclass(frozen=True, eq=False, slots=True)
class Undo(OfJoint):
    """A joint undone where it is."""

    kind = "undo"

    @property
    def position(self) -> str:
        """Where it is done."""
        return self.joint.position


@dataclass(frozen=True, eq=False, slots=True)
class UndoAtBench(OfJoint):
    """A joint inside a carrier that is out, undone there."""

    kind = "undo-bench"
    position: ClassVar[str] = BENCH


@dataclass(frozen=True, eq=False, slots=True)
class Make(OfCondition):
    """A condition made, or confirmed."""

    kind = "make"


@dataclass(frozen=True, eq=False, slots=True)
class Work(Node):
    """A task, by its number in the order of the job."""

    number: int
    wanted: Wanted
    kind = "work"

    def _ids(self) -> tuple[str, ...]:
        return (str(self.number),)

    @property
    def title(self) -> str:
        """The task as a phrase."""
        return self.wanted.phrase

    @property
    def place(self) -> Place:
        """Where it was asked for."""
        return self.wanted.place


Lifting = Lift | LiftAtBench
Undoing = Undo | UndoAtBench
Doing = Lift | LiftAtBench | Undo | UndoAtBench | Make | Work
Doings = dict[Doing, tuple[Doing, ...]]
"""Every doing of an opening with the doings that come straight before it."""


# -- what several doings bring about


@dataclass(frozen=True, eq=False, slots=True)
class Out(OfComponent):
    """The component is out of the plant, or off its carrier at the bench."""

    kind = "out"


@dataclass(frozen=True, eq=False, slots=True)
class Clear(OfComponent):
    """The component is no longer in the way: out, aside, or gone with its carrier."""

    kind = "clear"


@dataclass(frozen=True, eq=False, slots=True)
class Moved(OfComponent):
    """The component itself was moved in place, and not carried out."""

    kind = "moved"


@dataclass(frozen=True, eq=False, slots=True)
class Aside(OfComponent):
    """The component stands aside, still connected."""

    kind = "aside"


@dataclass(frozen=True, eq=False, slots=True)
class ClearAtBench(OfComponent):
    """The component is no longer in the way on its carrier at the bench."""

    kind = "clear-bench"


@dataclass(frozen=True, eq=False, slots=True)
class Undone(OfJoint):
    """The joint is undone, here or at the bench."""

    kind = "undone"


@dataclass(frozen=True, eq=False, slots=True)
class Isolated(Node):
    """A circuit may be opened."""

    circuit: Circuit
    medium: Medium
    kind = "isolated"

    def _ids(self) -> tuple[str, ...]:
        return (self.circuit.id,)

    @property
    def title(self) -> str:
        """The circuit's title, or its medium's."""
        return self.circuit.title or self.medium.title

    @property
    def place(self) -> Place:
        """The circuit's place."""
        return self.circuit.place


@dataclass(frozen=True, eq=False, slots=True)
class Bared(Node):
    """What guards a medium may be lifted."""

    medium: Medium
    kind = "bared"

    def _ids(self) -> tuple[str, ...]:
        return (self.medium.id,)

    @property
    def title(self) -> str:
        """The medium's title."""
        return self.medium.title

    @property
    def place(self) -> Place:
        """The medium's place."""
        return self.medium.place


Standing = Out | Clear | Moved | Aside | ClearAtBench | Undone | Isolated | Bared
Cleared = Clear | Moved | Aside | ClearAtBench


# -- doings of the second half


@dataclass(frozen=True, eq=False, slots=True)
class Fit(OfComponent):
    """A component put back."""

    kind = "fit"


@dataclass(frozen=True, eq=False, slots=True)
class Remake(OfJoint):
    """A joint made again."""

    kind = "remake"


@dataclass(frozen=True, eq=False, slots=True)
class Release(OfCondition):
    """A condition let go."""

    kind = "release"


@dataclass(frozen=True, eq=False, slots=True)
class Prove(Node):
    """A proof done."""

    proof: Proof
    kind = "prove"

    def _ids(self) -> tuple[str, ...]:
        return (self.proof.id,)

    @property
    def title(self) -> str:
        """The proof's title."""
        return self.proof.title

    @property
    def place(self) -> Place:
        """The proof's place."""
        return self.proof.place


@dataclass(frozen=True, eq=False, slots=True)
class HandOver(Prove):
    """The proof that every visit ends with."""

    kind = "hand-over"


Physical = Lift | LiftAtBench | Undo | UndoAtBench


def back(doing: Physical) -> Fit | Remake:
    """What puts right what a strip doing opened."""
    return Remake(doing.joint) if isinstance(doing, OfJoint) else Fit(doing.component)


# -- legs of what takes several acts


@dataclass(frozen=True, eq=False, slots=True)
class Leg(Node):
    """One leg of a doing that waits, or changes its position, on the way."""

    doing: Make | Release | Prove
    number: int
    kind = "leg"

    def __post_init__(self) -> None:
        object.__setattr__(self, "key", (*self.doing.key, str(self.number)))

    @property
    def title(self) -> str:
        """What it is a leg of."""
        return self.doing.title

    @property
    def place(self) -> Place:
        """Where the files speak of it."""
        return self.doing.place


Charge = tuple[str, str]
"""What is paid once however often it is used: ("proof" | "tool" | "position", id)."""
