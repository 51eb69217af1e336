"""An act is one operation of the plan with its lines of the sheet; a programme of acts is what gets ordered."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from splitpin.ordering.precedence import bits
from splitpin.ordering.problem import Operation, OrderingProblem
from splitpin.planning.plant.doings import Node
from splitpin.planning.plant.plant import Plant
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
    because: tuple[str, ...] = ()  # reasons of its own, after those of its act


@dataclass(frozen=True, slots=True)
class Act:
    """Lines that are done in one go, at one position, with one set of tools; only its last line may start a wait."""

    key: Node
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

    first: Node
    last: Node


class Programme:
    """Acts by key, and what comes before what.

    Acts are kept in the order in which they were added: ties of the ordering fall that way. The closure of the rules
    is kept as one set of bits an act, so that a rule that follows from others costs nothing and adds nothing.
    """

    def __init__(self) -> None:
        self.acts: dict[Node, Act] = {}
        self.before: dict[Node, set[Node]] = {}
        self._number: dict[Node, int] = {}
        self._earlier: list[int] = []
        self._later: list[int] = []
        self._waiting = 0

    def add(self, act: Act) -> None:
        """One more act; its key must be new."""
        assert act.key not in self.acts, act.key
        self._number[act.key] = len(self.acts)
        self._waiting |= (act.wait_s > 0) << len(self.acts)
        self.acts[act.key] = act
        self.before[act.key] = set()
        self._earlier.append(0)
        self._later.append(0)

    def add_chain(self, acts: Iterable[Act]) -> Ends:
        """Acts (at least one) that follow one another; the keys of the first and the last."""
        keys: list[Node] = []
        for act in acts:
            self.add(act)
            if keys:
                self.require(keys[-1], act.key)
            keys.append(act.key)
        return Ends(keys[0], keys[-1])

    def require(self, earlier: Node, later: Node) -> None:
        """`earlier` is done before `later`; both must be there. What follows from other rules is kept only for its
        wait.
        """
        if earlier == later:
            return
        a, b = self._number[earlier], self._number[later]
        known = self._earlier[b] >> a & 1
        if known and not self._waiting >> a & 1:
            return
        self.before[later].add(earlier)
        if not known:
            upward, downward = self._earlier[a] | 1 << a, self._later[b] | 1 << b
            for index in bits(upward):
                self._later[index] |= downward
            for index in bits(downward):
                self._earlier[index] |= upward

    def prefer(self, earlier: Node, later: Node) -> bool:
        """`require`, unless `later` already comes before `earlier`; says whether the rule could be kept."""
        if self.precedes(later, earlier):
            return False
        self.require(earlier, later)
        return True

    def precedes(self, earlier: Node, later: Node) -> bool:
        """Whether the rules so far put `earlier` before `later`."""
        return bool(self._earlier[self._number[later]] >> self._number[earlier] & 1)

    def goes_round(self) -> bool:
        """Whether some acts wait for each other in a circle, so that no order exists."""
        return any(earlier >> index & 1 for index, earlier in enumerate(self._earlier))

    def tools(self) -> tuple[str, ...]:
        """Every tool of the acts, in the order in which the problem numbers them."""
        return tuple(sorted({tool for act in self.acts.values() for tool in act.tools}))

    def problem(self, plant: Plant) -> OrderingProblem:
        """The same in plain numbers: acts numbered as added, tools by id, positions as the plant lists them.

        Of the rules only those without which others would not follow, and those with a wait: programmes that ask for
        the same give the same problem.
        """
        number = {key: index for index, key in enumerate(self.acts)}
        tools = self.tools()
        tool_number = {tool: index for index, tool in enumerate(tools)}
        place_number = {position: index for index, position in enumerate(plant.positions)}
        operations = tuple(
            Operation(
                seconds=act.seconds,
                tools=frozenset(tool_number[tool] for tool in act.tools),
                position=None if act.position is None else place_number[act.position],
                after=tuple(sorted((number[k], self.acts[k].wait_s) for k in self._needed_before(key))),
            )
            for key, act in self.acts.items()
        )
        return OrderingProblem(
            operations=operations,
            pickup_s=tuple(plant.pickup_s(tool) for tool in tools),
            travel_s=plant.travel_s,
        )

    def _needed_before(self, key: Node) -> set[Node]:
        implied = 0
        for earlier in self.before[key]:
            implied |= self._earlier[self._number[earlier]]
        return {k for k in self.before[key] if self.acts[k].wait_s or not implied >> self._number[k] & 1}
