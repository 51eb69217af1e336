"""An act is one operation of the plan with its lines of the sheet; a programme of acts is what gets ordered."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from graphlib import CycleError, TopologicalSorter
from typing import NamedTuple

from splitpin.ordering import Operation, OrderingProblem
from splitpin.planning.keys import Key
from splitpin.planning.plant import Plant
from splitpin.records.plan import Action, Phase


@dataclass(frozen=True, slots=True)
class Line:
    """One imperative line of the sheet, hands-on seconds without set-up, and the wait that runs by itself after it."""

    action: Action
    text: str
    seconds: int
    wait_s: int = 0
    tools: tuple[str, ...] = ()
    consumables: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    seals: tuple[str, ...] = ()
    torque_nm: float | None = None
    record: str | None = None
    people: int = 1
    joint: str | None = None  # where the line is about another joint than its act


@dataclass(frozen=True, slots=True)
class Act:
    """Lines that are done in one go, at one position, with one set of tools; only its last line may start a wait."""

    key: Key
    phase: Phase
    lines: tuple[Line, ...]
    position: str | None = None
    component: str | None = None
    joint: str | None = None
    condition: str | None = None
    proof: str | None = None

    @property
    def seconds(self) -> int:
        """Hands-on, without set-up."""
        return sum(line.seconds for line in self.lines)

    @property
    def wait_s(self) -> int:
        """The wait that runs by itself when the act is done."""
        return self.lines[-1].wait_s

    @property
    def tools(self) -> tuple[str, ...]:
        """Every tool its lines use."""
        return tuple(sorted({tool for line in self.lines for tool in line.tools}))


class Ends(NamedTuple):
    """The first and the last act of a chain."""

    first: Key
    last: Key


@dataclass(slots=True)
class Programme:
    """Acts by key, and for each the keys of what comes before it.

    Acts are kept in the order in which they were added: ties of the ordering fall that way.
    """

    acts: dict[Key, Act] = field(default_factory=dict)
    before: dict[Key, set[Key]] = field(default_factory=dict)

    def add(self, act: Act) -> None:
        """One more act; its key must be new."""
        assert act.key not in self.acts, act.key
        self.acts[act.key] = act
        self.before[act.key] = set()

    def add_chain(self, acts: Iterable[Act]) -> Ends:
        """Acts (at least one) that follow one another; the keys of the first and the last."""
        keys: list[Key] = []
        for act in acts:
            self.add(act)
            if keys:
                self.before[act.key].add(keys[-1])
            keys.append(act.key)
        return Ends(keys[0], keys[-1])

    def require(self, earlier: Key, later: Key) -> None:
        """`earlier` is done before `later`; both must be there."""
        assert earlier in self.acts and later in self.acts, (earlier, later)
        if earlier != later:
            self.before[later].add(earlier)

    def prefer(self, earlier: Key, later: Key) -> bool:
        """`require`, unless `later` already comes before `earlier`; says whether the rule could be kept."""
        if earlier == later or self.precedes(later, earlier):
            return earlier == later
        self.require(earlier, later)
        return True

    def goes_round(self) -> bool:
        """Whether some acts wait for each other in a circle, so that no order exists."""
        try:
            TopologicalSorter(self.before).prepare()
        except CycleError:
            return True
        return False

    def later_than(self, key: Key) -> set[Key]:
        """Everything that the rules so far put after `key`."""
        after: dict[Key, list[Key]] = {}
        for later, keys in self.before.items():
            for other in keys:
                after.setdefault(other, []).append(later)
        found: set[Key] = set()
        waiting = [key]
        while waiting:
            for later in after.get(waiting.pop(), ()):
                if later not in found:
                    found.add(later)
                    waiting.append(later)
        return found

    def precedes(self, earlier: Key, later: Key) -> bool:
        """Whether the rules so far put `earlier` before `later`."""
        seen = {later}
        waiting = [later]
        while waiting:
            for key in self.before[waiting.pop()]:
                if key == earlier:
                    return True
                if key not in seen:
                    seen.add(key)
                    waiting.append(key)
        return False

    def problem(self, plant: Plant) -> OrderingProblem:
        """The same in plain numbers: acts numbered as added, tools by id, positions as the plant lists them."""
        number = {key: index for index, key in enumerate(self.acts)}
        tools = sorted({tool for act in self.acts.values() for tool in act.tools})
        tool_number = {tool: index for index, tool in enumerate(tools)}
        place_number = {position: index for index, position in enumerate(plant.positions)}
        operations = tuple(
            Operation(
                seconds=act.seconds,
                tools=frozenset(tool_number[tool] for tool in act.tools),
                position=None if act.position is None else place_number[act.position],
                after=tuple(sorted((number[k], self.acts[k].wait_s) for k in self.before[key])),
            )
            for key, act in self.acts.items()
        )
        return OrderingProblem(
            operations=operations,
            pickup_s=tuple(plant.pickup_s(tool) for tool in tools),
            travel_s=plant.travel_s,
        )
