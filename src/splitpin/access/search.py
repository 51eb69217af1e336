"""The least set of openings: the cheapest set in which some order meets every need.

The problem is narrowed before it is searched. A way that forces all that another way of the same choice forces is not
needed. A set found gives a cost to beat, and a way is barred when the bound and what the prices leave of its articles
come to no less; what remains is worked out afresh, for more is forced now, until nothing more falls away. Most
problems of the trade end here; the rest are finished by branching (see `finishing`).

By hand: node 2 needs 0 (cost 4) or 1 (cost 3), node 3 needs 0, both are wanted. Node 0 is forced by 3, the way by 1
forces more than the way by 0, which is in the set already: nothing is left to choose.

Left out: the order itself and whatever it costs (see `listing`, which hands on every choice).
"""

from collections.abc import Callable

from splitpin.access.bound import Bound
from splitpin.access.causes import why_not
from splitpin.access.finishing import Finish, finish
from splitpin.access.problem import AccessProblem
from splitpin.access.reduction import Choice, Reduction, Way, reduce
from splitpin.access.result import AccessResult
from splitpin.access.settling import met_inside, settle


def least_opening(problem: AccessProblem, *, stop: Callable[[], bool] | None = None) -> AccessResult:
    """The cheapest opening with proof, or the best found when `stop` says so, or why there is none.

    stop: asked before each set is taken up; true ends the search with the best so far and the proved bound.
    Ties: always the same opening for the same problem. Cost: exponential at worst in the number of true choices.
    """
    reduction = reduce(problem)
    if reduction is None:
        return AccessResult("impossible", None, 0, why_not(problem))
    least = least_set(problem, reduction, stop or (lambda: False))
    opening = settle(problem, reduction, least.complete)
    return AccessResult("proved" if least.bound == least.cost else "bounded", opening, least.bound)


def least_set(problem: AccessProblem, reduction: Reduction, stop: Callable[[], bool]) -> Finish:
    """The cheapest finished set of a reduction of the problem."""
    best: Finish | None = None
    lowest = 0
    barred: set[tuple[int, int, int]] = set()
    while True:
        bound = Bound(reduction)
        base = reduction.price(reduction.forced)
        rest = bound.rest(reduction.forced, reduction.raised)
        assert rest is not None, "whatever a reduction brings up can be met"
        lowest = max(lowest, base + rest.cost)
        complete = rest.complete
        if lowest < reduction.price(complete):
            complete = _thinned(reduction, bound, complete)
        cost = reduction.price(complete)
        if best is None or cost < best.cost:
            best = Finish(complete, cost, lowest)
        if lowest >= best.cost:
            return Finish(best.complete, best.cost, best.cost)
        before = len(barred)
        dear = bound.dear(rest, best.cost - base - rest.cost)
        for choice, ways in zip(reduction.choices, bound.ways, strict=True):
            for way, priced in zip(choice.ways, ways, strict=True):
                if priced.bit & dear or _dominated(way, choice):
                    barred.add((choice.owner, choice.need, way.number))
        if len(barred) == before:
            known = Finish(best.complete, best.cost, lowest)
            return finish(reduction, bound, reduction.forced, reduction.raised, known, stop)
        narrowed = reduce(problem, barred)
        if narrowed is None:
            return Finish(best.complete, best.cost, best.cost)
        reduction = narrowed


def _dominated(way: Way, choice: Choice) -> bool:
    """Whether another way of the choice forces no more (of two that force the same, the later one is dominated)."""
    return any(
        not other.forces & ~way.forces and (other.forces != way.forces or other.number < way.number)
        for other in choice.ways
    )


def _thinned(reduction: Reduction, bound: Bound, complete: int) -> int:
    """A finished set without the articles it can do without, the dearest tried first."""
    order = sorted(range(len(bound.articles)), key=lambda article: (-bound.prices[article], article))
    for article in order:
        if bound.articles[article] & complete:
            fewer = complete & ~bound.articles[article]
            met = sum(1 << number for number in met_inside(reduction, fewer))
            if not reduction.raised & ~met:
                complete = fewer
    return complete
