"""What is done in a visit, each once. A doing knows the record that it is about: name, place and seconds stand here.

Each is made once by the graph of its visit, so two are equal when they are the same. By hand: a casing held by two
screws comes off: `undo:casing-screws`, then `lift:casing`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, Literal

from splitpin.planning.plant import elements
from splitpin.planning.plant.elements import Handling
from splitpin.records.words import BENCH

if TYPE_CHECKING:
    from splitpin.hardware.fixing import Fixing
    from splitpin.notices import Place
    from splitpin.planning.asked.expand import Wanted
    from splitpin.planning.plant.plant import Plant
    from splitpin.records.assembly import Component, Joint, Way
    from splitpin.records.procedure import Condition


@dataclass(frozen=True, slots=True, eq=False)
class Lift:
    """A component leaves by one of its ways: in place, or at the bench with a carrier that is out."""

    component: Component
    number: int  # of the way
    carrier: Component | None  # what is out with it, when it leaves at the bench
    handling: Handling
    tools: tuple[str, ...]

    @classmethod
    def of(cls, component: Component, number: int, plant: Plant, carrier: Component | None = None) -> Lift:
        """By the way of this number."""
        way = component.ways[number]
        handling = elements.handling(component, way, plant.load_kg(component), plant.library)
        return cls(component, number, carrier, handling, plant.chosen(way.tools))

    @property
    def way(self) -> Way:
        """The way by which it leaves."""
        return self.component.ways[self.number]

    @property
    def sort(self) -> str:
        """`lift` or `bench`."""
        return "lift" if self.carrier is None else "bench"

    @property
    def name(self) -> str:
        """The component's id."""
        return self.component.id

    @property
    def title(self) -> str:
        """The component's."""
        return self.component.title

    @property
    def phrase(self) -> str:
        """In a sentence: `the pump`."""
        return f"the {self.component.title}"

    @property
    def place(self) -> Place:
        """Where the component stands in its file."""
        return self.component.place

    @property
    def position(self) -> str:
        """Where the hands are."""
        return self.component.position if self.carrier is None else BENCH

    @property
    def ends(self) -> Literal["out", "aside"]:
        """How far the component leaves."""
        return self.way.ends

    @property
    def seconds(self) -> tuple[int, int]:
        """To take it away, and to put it back."""
        return self.handling.off_s, self.handling.on_s


@dataclass(frozen=True, slots=True, eq=False)
class Undo:
    """All pieces of a joint are undone, in place or at the bench inside a carrier that is out."""

    joint: Joint
    carrier: Component | None  # what is out with the joint made, when it is undone at the bench
    title: str  # which parts it joins
    fixing: Fixing
    rank: tuple[bool, int]  # its turn among the joints of one lift: what bears comes last
    tools: tuple[str, ...]
    seconds: tuple[int, int]  # to undo it, and to remake it with its seal
    number: ClassVar[int] = 0

    @classmethod
    def of(cls, joint: Joint, plant: Plant, carrier: Component | None = None) -> Undo:
        """With its hardware looked up."""
        fixing = plant.fixing(joint)
        on_s = elements.remake_seconds(joint, fixing) + elements.seal_seconds(joint, plant.library)
        seconds = (elements.undo_seconds(joint, fixing), on_s)
        rank = (joint.bears, plant.library.kinds[fixing.kind].rank)
        return cls(joint, carrier, plant.ends(joint), fixing, rank, plant.chosen(fixing.tools), seconds)

    @property
    def bench(self) -> bool:
        """Whether it is undone at the bench."""
        return self.carrier is not None

    @property
    def sort(self) -> str:
        """`undo` or `undo-bench`."""
        return "undo-bench" if self.bench else "undo"

    @property
    def name(self) -> str:
        """The joint's id."""
        return self.joint.id

    @property
    def phrase(self) -> str:
        """In a sentence: `the joint motor head to volute`."""
        return f"the joint {self.title}"

    @property
    def place(self) -> Place:
        """Where the joint stands in its file."""
        return self.joint.place

    @property
    def position(self) -> str:
        """Where the hands are."""
        return BENCH if self.bench else self.joint.position


@dataclass(frozen=True, slots=True, eq=False)
class Make:
    """A condition is made, or confirmed where the job says that it holds already."""

    condition: Condition
    already: bool
    seconds: tuple[int, int]  # to make or confirm it, and to release it
    sort: ClassVar[str] = "make"
    number: ClassVar[int] = 0

    @classmethod
    def of(cls, condition: Condition, plant: Plant) -> Make:
        """With what the job says of it."""
        already = plant.already(condition.id)
        make_s = elements.CONFIRM_S if already else elements.step_seconds(condition.make)
        return cls(condition, already, (make_s, elements.step_seconds(condition.release)))

    @property
    def name(self) -> str:
        """The condition's id."""
        return self.condition.id

    @property
    def title(self) -> str:
        """The condition's."""
        return self.condition.title

    phrase = title

    @property
    def place(self) -> Place:
        """Where the condition stands in its file."""
        return self.condition.place

    @property
    def waits(self) -> bool:
        """Whether it has to be waited for."""
        return any(step.wait_min for step in self.condition.make)


@dataclass(frozen=True, slots=True, eq=False)
class Work:
    """A task of the job is done."""

    wanted: Wanted
    number: int  # of the task
    seconds: tuple[int, int]  # to do it; nothing of it is put right again
    sort: ClassVar[str] = "work"

    @classmethod
    def of(cls, wanted: Wanted, number: int) -> Work:
        """With its planning time."""
        return cls(wanted, number, (elements.work_seconds(wanted.work), 0))

    @property
    def name(self) -> str:
        """The task's number among those of the job."""
        return str(self.number)

    @property
    def title(self) -> str:
        """The task: `replace the pump`."""
        return self.wanted.phrase

    phrase = title

    @property
    def place(self) -> Place:
        """Where it is asked for."""
        return self.wanted.place


Apart = Lift | Undo
"""What is taken apart, and put together again."""
Doing = Lift | Undo | Make | Work
DOINGS = (Lift, Undo, Make, Work)
Doings = dict[Doing, tuple[Doing, ...]]
"""Every doing of an opening with the doings that come straight before it."""


def id_of(doing: Doing) -> str:
    """`lift:pump`, `work:0`."""
    return f"{doing.sort}:{doing.name}"


def turn(doing: Doing) -> tuple[str, str, int]:
    """Where a doing stands among others in a list: by sort and name, whatever the order of the file."""
    return doing.sort, doing.name, doing.number
