"""The best sequence of checks, proved: by the block rule where covers nest, else by every set of checks done.

A set of checks done says what is open and how likely the fault is still unfound, so the sequence behind it no longer
matters: the least expected time to each set is enough (M. Held and R. M. Karp, 1962, for sequencing in general).
"""

from collections.abc import Callable
from fractions import Fraction

from splitpin.faults.blocks import block_order, nested
from splitpin.faults.problem import CheckProblem
from splitpin.faults.result import CheckOrder


def best_checks(problem: CheckProblem, stop: Callable[[], bool] | None = None) -> CheckOrder:
    """The sequence with the least expected time until the fault is found; ties go to the lower numbers.

    Where covers nest, time grows with the square of the suspects. Elsewhere with 2 to the number of suspects at worst;
    `stop` is polled between layers of that search and ends it with the best sequence known and its gap.
    """
    if nested(problem) and problem.settled():
        return _told(problem, block_order(problem))
    return _by_sets(problem, stop)


def _told(problem: CheckProblem, order: tuple[int, ...], gap: int = 0) -> CheckOrder:
    return CheckOrder(order, _weighted(problem, order), sum(problem.weights), gap)


def _weighted(problem: CheckProblem, order: tuple[int, ...]) -> int:
    left, cost, opened = sum(problem.weights), 0, frozenset[int]()
    for suspect in order:
        cost += left * _taken(problem, suspect, opened)
        opened |= problem.behind[suspect]
        left -= problem.weights[suspect]
    return cost


def _taken(problem: CheckProblem, suspect: int, opened: frozenset[int]) -> int:
    """The seconds of a check with what must be opened for it and the supply put back for it."""
    fresh = sum(problem.opening_seconds[one] for one in problem.behind[suspect] - opened)
    return problem.seconds[suspect] + fresh + problem.interrupted(suspect, opened)


def _by_sets(problem: CheckProblem, stop: Callable[[], bool] | None) -> CheckOrder:
    """Layer by layer over the sets of checks done, leaving out sets that cannot lead to less than a known sequence."""
    known = _greedy(problem)
    most = _weighted(problem, known)
    floor = _Floor(problem)
    lowest = floor.of(frozenset())
    layer: dict[frozenset[int], tuple[int, tuple[int, ...]]] = {frozenset(): (0, ())}
    total = sum(problem.weights)
    for _ in problem.weights:
        if stop is not None and stop():
            return _told(problem, known, most - lowest)
        following: dict[frozenset[int], tuple[int, tuple[int, ...]]] = {}
        for done, (cost, order) in layer.items():
            opened = frozenset().union(*(problem.behind[suspect] for suspect in done))
            left = total - sum(problem.weights[suspect] for suspect in done)
            for suspect in range(len(problem.weights)):
                if suspect in done:
                    continue
                new = (cost + left * _taken(problem, suspect, opened), (*order, suspect))
                grown = done | {suspect}
                if (grown not in following or new < following[grown]) and new[0] + floor.of(grown) <= most:
                    following[grown] = new
        layer = following
        lowest = max(lowest, min((cost + floor.of(done) for done, (cost, _) in layer.items()), default=most))
    return min((_told(problem, order) for _, order in layer.values()), key=lambda told: (told.weighted_s, told.order))


class _Floor:
    """No sequence of the checks left is shorter than with every cover already off, greatest weight per second first."""

    def __init__(self, problem: CheckProblem) -> None:
        self._problem = problem
        free = CheckProblem(problem.weights, problem.seconds, (frozenset(),) * len(problem.weights), ())
        self._order = block_order(free)
        self._known: dict[frozenset[int], int] = {}

    def of(self, done: frozenset[int]) -> int:
        if done not in self._known:
            rest = [suspect for suspect in self._order if suspect not in done]
            left, cost = sum(self._problem.weights[suspect] for suspect in rest), 0
            for suspect in rest:
                cost += left * self._problem.seconds[suspect]
                left -= self._problem.weights[suspect]
            self._known[done] = cost
        return self._known[done]


def _greedy(problem: CheckProblem) -> tuple[int, ...]:
    """A fair sequence at once: each time the check with the greatest weight per second, its covers counted."""
    order: list[int] = []
    opened = frozenset[int]()
    left = list(range(len(problem.weights)))

    def pays(suspect: int) -> Fraction:
        return Fraction(problem.weights[suspect], max(_taken(problem, suspect, opened), 1))

    while left:
        suspect = max(left, key=pays)
        left.remove(suspect)
        order.append(suspect)
        opened |= problem.behind[suspect]
    return tuple(order)
