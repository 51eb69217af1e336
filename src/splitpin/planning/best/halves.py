"""Bounds and best orders of strips and refits, each worked out once: openings often share one half and differ in the
other. By hand: gas isolated at the plant or at the meter is released differently and stripped the same.
"""

from collections.abc import Callable

from splitpin.ordering.best import best_order, lower_bound
from splitpin.ordering.problem import OrderingProblem
from splitpin.ordering.result import OrderResult, Status


class Halves:
    """Answers about halves; `stop`, polled while ordering, ends a search without proof.

    What was searched is remembered, so memory grows with the searches, not with the openings looked at.
    """

    def __init__(self, stop: Callable[[], bool] | None = None) -> None:
        self._stop = stop
        self._bounds: dict[OrderingProblem, int] = {}
        self._best: dict[OrderingProblem, OrderResult] = {}

    def bound(self, problem: OrderingProblem) -> int:
        """Seconds that no order of the half can beat, as far as is known."""
        known = self._bounds.get(problem)
        return lower_bound(problem) if known is None else known

    def best(self, problem: OrderingProblem, cutoff_s: int | None) -> OrderResult | None:
        """The best order, or the best found when stopped; None when none is found that ends before the cut-off."""
        found = self._best.get(problem)
        if found is None:
            if cutoff_s is not None and self._bounds.get(problem, 0) >= cutoff_s:
                return None
            found = best_order(problem, stop=self._stop, cutoff_s=cutoff_s)
            self._bounds[problem] = max(found.bound_s, self.bound(problem))
            if found.status is Status.PROVED:
                self._best[problem] = found
        return found if cutoff_s is None or found.elapsed_s < cutoff_s else None
