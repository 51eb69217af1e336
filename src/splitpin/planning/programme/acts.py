"""An act is one operation of the plan with its lines of the sheet; a programme of acts is what gets ordered."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from splitpin.ordering.precedence import bits
from splitpin.ordering.problem import Operation, OrderingProblem
from splitpin.planning.plant.doings import Apart, Doing, Make
from splitpin.planning.plant.plant import Plant
from splitpin.records.plan import Action, Phase

if TYPE_CHECKING:
    from splitpin.records.procedure import Proof


@dataclass(frozen=True, slots=True)
class PutBack:
    """A component is fitted, or a joint remade."""

    opened: Apart


@dataclass(frozen=True, slots=True)
class Release:
    """A condition is let go."""

    made: Make


@dataclass(frozen=True, slots=True)
class Prove:
    """A proof is run."""

    proof: Proof


@dataclass(frozen=True, slots=True)
class HandOver:
    """The visit ends."""


Part = Doing | PutBack | Release | Prove | HandOver
"""What an act does, or is a leg of."""


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


@dataclass(frozen=True, slots=True, eq=False)
class Act:
    """Lines that are done in one go, at one position, with one set of tools; only its last line may start a wait."""

    part: Part
    phase: Phase
    lines: tuple[Line, ...]
    position: str | None = None
    leg: int = 0  # a condition made or released and a proof are cut into legs
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

    first: Act
    last: Act


class Programme:
    """Acts, and what comes before what.

    Acts are kept in the order in which they were added: ties of the ordering fall that way. The closure of the rules
    is kept as one set of bits an act, so that a rule that follows from others costs nothing and adds nothing.
    """

    def __init__(self) -> None:
        self.acts: list[Act] = []
        self.before: dict[Act, set[Act]] = {}
        self._number: dict[Act, int] = {}
        self._earlier: list[int] = []
        self._later: list[int] = []
        self._waiting = 0

    def add(self, act: Act) -> Act:
        """One more act."""
        assert act not in self.before, act.part
        self._number[act] = len(self.acts)
        self._waiting |= (act.wait_s > 0) << len(self.acts)
        self.acts.append(act)
        self.before[act] = set()
        self._earlier.append(0)
        self._later.append(0)
        return act

    def add_chain(self, acts: Iterable[Act]) -> Ends:
        """Acts (at least one) that follow one another; the first and the last."""
        chain: list[Act] = []
        for act in acts:
            self.add(act)
            if chain:
                self.require(chain[-1], act)
            chain.append(act)
        return Ends(chain[0], chain[-1])

    def require(self, earlier: Act, later: Act) -> None:
        """`earlier` is done before `later`; both must be there. What follows from other rules is kept only for its
        wait.
        """
        if earlier is later:
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

    def prefer(self, earlier: Act, later: Act) -> bool:
        """`require`, unless `later` already comes before `earlier`; says whether the rule could be kept."""
        if self.precedes(later, earlier):
            return False
        self.require(earlier, later)
        return True

    def precedes(self, earlier: Act, later: Act) -> bool:
        """Whether the rules so far put `earlier` before `later`."""
        return bool(self._earlier[self._number[later]] >> self._number[earlier] & 1)

    def waits_before(self, act: Act) -> tuple[Act, ...]:
        """The acts whose waits must have run out before this one begins, as added."""
        return tuple(other for other in self.acts if other.wait_s and other in self.before[act])

    def waits_ahead(self, act: Act) -> int:
        """The acts with a wait that the rules so far put before this one, as a set."""
        return self._earlier[self._number[act]] & self._waiting

    def goes_round(self) -> bool:
        """Whether some acts wait for each other in a circle, so that no order exists."""
        return any(earlier >> index & 1 for index, earlier in enumerate(self._earlier))

    def tools(self) -> tuple[str, ...]:
        """Every tool of the acts, in the order in which the problem numbers them."""
        return tuple(sorted({tool for act in self.acts for tool in act.tools}))

    def problem(self, plant: Plant) -> OrderingProblem:
        """The same in plain numbers: acts numbered as added, tools by id, positions as the plant lists them.

        Of the rules only those without which others would not follow, and those with a wait: programmes that ask for
        the same give the same problem.
        """
        tools = self.tools()
        tool_number = {tool: index for index, tool in enumerate(tools)}
        place_number = {position: index for index, position in enumerate(plant.positions)}
        operations = tuple(
            Operation(
                seconds=act.seconds,
                tools=frozenset(tool_number[tool] for tool in act.tools),
                position=None if act.position is None else place_number[act.position],
                after=tuple(sorted((self._number[other], other.wait_s) for other in self._needed_before(act))),
            )
            for act in self.acts
        )
        return OrderingProblem(
            operations=operations,
            pickup_s=tuple(plant.pickup_s(tool) for tool in tools),
            travel_s=plant.travel_s,
        )

    def _needed_before(self, act: Act) -> Iterable[Act]:
        implied = 0
        for earlier in self.before[act]:
            implied |= self._earlier[self._number[earlier]]
        return (other for other in self.before[act] if other.wait_s or not implied >> self._number[other] & 1)
