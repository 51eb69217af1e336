"""A quick time that no plan with an opening can undercut, so that most openings need not be ordered, or even listed.

Strip: the hands-on seconds; or, for each condition, the time at which it holds at the earliest, its waits and all that
it is made after counted, and then all the work that comes after it in every opening. Whichever is longest. Refit: the
hands-on seconds of what is put back, released and proved before the plant runs, and then the live proofs and the
hand-over with the waits that they cannot fill with one another. By hand: 10 min of work after a cool-down of 15 min
takes 25 min, however little else there is to do meanwhile.

What is said of a set of doings holds for every larger set too: whatever comes on top only adds to each of these times.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin import units
from splitpin.access.problem import AccessProblem
from splitpin.access.reduction import always_before
from splitpin.ordering.best import lower_bound
from splitpin.ordering.problem import Operation, OrderingProblem
from splitpin.planning.opening.graph import Charge, Graph
from splitpin.planning.plant.doings import Make, Work
from splitpin.planning.plant.elements import CONFIRM_S, step_seconds
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.habits import WORK_WHEN_OPEN, Habits
from splitpin.records.words import HAND_OVER

if TYPE_CHECKING:
    from splitpin.records.procedure import ProcedureStep


class LeastElapsed:
    """Answers for the sets of one graph; the live parts that recur are worked out once.

    hand_over_s: what every visit takes on top of the cost of its opening.
    """

    def __init__(self, graph: Graph, plant: Plant, problem: AccessProblem, habits: Habits) -> None:
        self.plant = plant
        nodes = graph.nodes
        self._strip = [node.seconds[0] for node in nodes]
        self._refit = [node.seconds[1] for node in nodes]
        self._live: dict[int, str] = {}  # live proofs by their bit
        for (kind, name), seconds in graph.charge_costs.items():
            live = kind == "proof" and plant.library.proofs[name].stage == "live"
            if live:
                self._live[len(self._strip)] = name
            # tools and positions are counted once for each half
            self._strip.append(0 if kind == "proof" else seconds // 2)
            self._refit.append(0 if live else seconds if kind == "proof" else seconds // 2)
        rows = plant.library.proofs
        counted = HAND_OVER not in rows or Charge("proof", HAND_OVER) in graph.charge_costs
        self.hand_over_s = 0 if counted else step_seconds(rows[HAND_OVER].step)
        self._live_bits = sum(1 << bit for bit in self._live)
        self._live_s: dict[int, int] = {}
        works = sum(1 << number for number, node in enumerate(nodes) if isinstance(node, Work))
        last = works if WORK_WHEN_OPEN in habits else 0
        before = always_before(problem)
        self._ready: list[tuple[int, int, int]] = []  # condition, when it holds, what comes after it, as sets
        for number, node in enumerate(nodes):
            if isinstance(node, Make):
                after = sum(1 << other for other, sets in enumerate(before) if other != number and sets >> number & 1)
                self._ready.append((1 << number, self._ready_s(node.name), after | last))

    def of(self, held: int) -> int:
        """Seconds that the whole visit takes at the least when its opening holds these nodes and charges (bits).

        Cost: one pass over the set for each condition in it.
        """
        members = _members(held)
        strip = sum([self._strip[bit] for bit in members])
        for condition, ready, after in self._ready:
            if held & condition:
                strip = max(strip, ready + sum([self._strip[bit] for bit in members if after >> bit & 1]))
        return strip + sum([self._refit[bit] for bit in members]) + self._live_seconds(held & self._live_bits)

    def _ready_s(self, name: str) -> int:
        """When a condition holds at the earliest, all that it is made after counted."""
        condition = self.plant.library.conditions[name]
        own = CONFIRM_S if self.plant.already(name) else sum(map(_with_wait, condition.make))
        return own + max((self._ready_s(other) for other in condition.after), default=0)

    def _live_seconds(self, bits: int) -> int:
        """Seconds from the first of these live proofs to the end of the hand-over."""
        known = self._live_s.get(bits)
        if known is None:
            problem = self._live_problem([name for bit, name in self._live.items() if bits >> bit & 1])
            known = self._live_s[bits] = lower_bound(problem) if problem.operations else 0
        return known

    def _live_problem(self, live: list[str]) -> OrderingProblem:
        rows = self.plant.library.proofs
        live = sorted({*live} - {HAND_OVER}) + [HAND_OVER] * (HAND_OVER in rows)
        first: dict[str, int] = {}
        count = 0
        for name in live:
            first[name] = count
            count += len(rows[name].step)
        operations = []
        for name in live:
            before = live[:-1] if name == HAND_OVER else [other for other in rows[name].after if other in first]
            ends = [(first[other] + len(rows[other].step) - 1, rows[other].step[-1]) for other in before]
            for step in rows[name].step:
                waits = sorted((index, units.seconds(last.wait_min)) for index, last in ends)
                operations.append(Operation(units.seconds(step.min), after=tuple(waits)))
                ends = [(len(operations) - 1, step)]
        return OrderingProblem(tuple(operations), (), ((0,),))


def _with_wait(step: ProcedureStep) -> int:
    return units.seconds(step.min) + units.seconds(step.wait_min)


def _members(held: int) -> list[int]:
    members = []
    while held:
        lowest = held & -held
        members.append(lowest.bit_length() - 1)
        held ^= lowest
    return members
