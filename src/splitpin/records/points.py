"""Points: where plant is operated or tested without being taken apart, and what a step of a procedure does to them."""

from typing import Literal

from splitpin.records.base import Behind, Id, Record, Seconds, Sourced, Text, ToolNeeds

PointKind = Literal["supply", "switch", "valve", "drain", "vent", "test", "link"]
PointRole = Literal["isolates", "drains", "vents", "tests", "feeds", "drives"]
Setting = Literal["on", "off", "open", "cracked", "closed", "joined", "parted"]


class Point(Sourced):
    """A supply, switch, valve, cock, test point or link of the plant. `normally` is how it stands at hand-over.

    A point that isolates, drains, vents or tests belongs to its `circuit`, and with `by` to one way of isolating it.
    What feeds or drives a circuit from outside is named by the circuit, for it may serve several.
    """

    id: Id
    title: Text
    kind: PointKind
    role: PointRole
    circuit: Id | None = None
    by: Id | None = None
    position: Id
    behind: Behind = ((),)
    tools: ToolNeeds = ()
    normally: Setting
    seconds: Seconds


class Operate(Record):
    """The points of one role that a step sets. `words` stand in the step's text where the plant's own points go."""

    role: PointRole
    to: Setting
    words: Text | None = None
