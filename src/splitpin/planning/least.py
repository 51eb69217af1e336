"""A quick time that no plan with an opening can undercut, so that most openings need not be ordered.

Strip: the hands-on seconds, or the longest chain of conditions with its waits and then all the work, whichever is
longer. Refit: the hands-on seconds and the waits that the live proofs, which come last, cannot fill with one
another. By hand: 10 min of work after a cool-down of 15 min takes 25 min, however little else there is to do
meanwhile.
"""

from splitpin import units
from splitpin.access import Opening
from splitpin.ordering import Operation, OrderingProblem, lower_bound
from splitpin.planning.openings import Graph
from splitpin.planning.plant import CONFIRM_S, Plant
from splitpin.planning.refit import HAND_OVER
from splitpin.records.procedure import ProcedureStep


class LeastElapsed:
    """Answers for the openings of one graph; chains and idle times that recur are worked out once."""

    def __init__(self, graph: Graph, plant: Plant) -> None:
        self.graph = graph
        self.plant = plant
        self.charges = list(graph.charge_costs.items())
        self._idle: dict[frozenset[str], int] = {}

    def of(self, opening: Opening) -> int:
        """Seconds that the whole visit takes at the least with this opening. Cost: one pass over nodes and charges."""
        keys = [self.graph.keys[node] for node in opening.nodes]
        strip = sum(self.graph.seconds[key][0] for key in keys)
        refit = sum(self.graph.seconds[key][1] for key in keys)
        proofs = set()
        for (kind, name), seconds in (self.charges[index] for index in opening.charges):
            if kind == "proof":
                refit += seconds
                proofs.add(name)
            else:  # tools and positions are counted once for each half
                strip += seconds // 2
                refit += seconds // 2
        work = sum(self.graph.seconds[key][0] for key in keys if key[0] == "work")
        chain = work + max((self._ready_s(key[1]) for key in keys if key[0] == "make"), default=0)
        return max(strip, chain) + refit + self._idle_at_the_end(frozenset(proofs))

    def _ready_s(self, name: str) -> int:
        """When a condition holds at the earliest, all that it is made after counted."""
        condition = self.plant.library.conditions[name]
        own = CONFIRM_S if self.plant.already(name) else sum(map(_with_wait, condition.make))
        return own + max((self._ready_s(other) for other in condition.after), default=0)

    def _idle_at_the_end(self, proofs: frozenset[str]) -> int:
        """Seconds of waiting in the live proofs and the hand-over that no other of them can fill."""
        if proofs not in self._idle:
            problem = self._live_problem(proofs)
            hands_on = sum(operation.seconds for operation in problem.operations)
            self._idle[proofs] = max(0, lower_bound(problem) - hands_on) if problem.operations else 0
        return self._idle[proofs]

    def _live_problem(self, names: frozenset[str]) -> OrderingProblem:
        rows = self.plant.library.proofs
        live = sorted(name for name in names if rows[name].stage == "live")
        live += [HAND_OVER] * (HAND_OVER in rows)
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
