"""The best order: chooses the search that fits the problem and words its end as a result."""

from collections.abc import Callable

from splitpin.ordering.changes import Stop, never
from splitpin.ordering.hands import FORBIDDEN, Hands, Pairwise, ToolsAndPositions
from splitpin.ordering.ideals import Ideals
from splitpin.ordering.labels import Labels
from splitpin.ordering.precedence import Precedence, shortest_cycle, topological_order
from splitpin.ordering.problem import OrderingProblem, Problem
from splitpin.ordering.result import OrderResult, Status
from splitpin.ordering.setups import Setups
from splitpin.ordering.tiers import thriftiest, told
from splitpin.ordering.twins import turns_of_twins
from splitpin.ordering.waits import Waits


def best_order(
    problem: Problem,
    *,
    stop: Callable[[], bool] | None = None,
    cutoff_s: int | None = None,
    elapsed_only: bool = False,
) -> OrderResult:
    """The order with the least elapsed seconds, of these the fewest hands-on seconds, of these the fewest changes.

    Proved one after the other, unless the search is stopped or a later proof would take out of proportion longer than
    the first (see MORE_STATES).
    stop: asked again and again; once it says True the best order so far comes back as bounded, with the proved bound.
    cutoff_s: only orders that end before it are of interest; when there is none the result is bounded, its bound_s is
    cutoff_s or more, and its order is the best known. elapsed_only: for who asks for the least elapsed time and no
    more; the later two stay unproved. Impossible carries a shortest cycle, or no causes when forbidden
    change-overs leave no order. Ties: a fixed choice that depends on the numbers of the operations alone.
    """
    after = _after(problem)
    original = topological_order(after)
    if original is None:
        return OrderResult(status=Status.IMPOSSIBLE, causes=shortest_cycle(after))
    stop = stop or never
    precedence = Precedence(after, original, _seconds(problem))
    if isinstance(problem, OrderingProblem) and precedence.starters:
        precedence = _twins_in_turn(problem, precedence)
    hands = _hands(problem, precedence, stop)
    if isinstance(hands, ToolsAndPositions):
        soonest = _with_tools(problem, hands, precedence, stop, cutoff_s)
    elif precedence.starters:
        soonest = _with_waits(problem, hands, precedence, stop, cutoff_s)
    else:
        soonest = _by_ideals(problem, hands, precedence, stop, cutoff_s)
    if elapsed_only or soonest.status is not Status.PROVED or (cutoff_s is not None and soonest.elapsed_s >= cutoff_s):
        return soonest
    return thriftiest(problem, hands, precedence, soonest, stop)


def _with_waits(
    problem: Problem, hands: Pairwise, precedence: Precedence, stop: Stop, cutoff_s: int | None
) -> OrderResult:
    search = Waits(hands, precedence)
    order, bound = search.run(stop, FORBIDDEN if cutoff_s is None else cutoff_s, 0)
    if order is None and cutoff_s is not None and bound < FORBIDDEN:
        order, _ = search.run(lambda: True, FORBIDDEN, 0)
    if order is None:
        status = Status.IMPOSSIBLE if bound >= FORBIDDEN else Status.BOUNDED
        return OrderResult(status=status, bound_s=0 if bound >= FORBIDDEN else bound, explored=search.explored)
    return told(problem, precedence, order, bound, search.explored)


def _by_ideals(
    problem: Problem,
    hands: Pairwise,
    precedence: Precedence,
    stop: Stop,
    cutoff_s: int | None,
) -> OrderResult:
    ideals = Ideals(hands, precedence)
    work = sum(hands.seconds)
    order, bound = ideals.run(stop, None if cutoff_s is None else cutoff_s - work)
    if order is None:
        status = Status.IMPOSSIBLE if bound >= FORBIDDEN else Status.BOUNDED
        return OrderResult(status=status, bound_s=0 if bound >= FORBIDDEN else work + bound, explored=ideals.explored)
    return told(problem, precedence, order, work + bound, ideals.explored)


def _with_tools(
    problem: Problem,
    hands: ToolsAndPositions,
    precedence: Precedence,
    stop: Stop,
    cutoff_s: int | None,
) -> OrderResult:
    """First as if no wait took time: that bounds the elapsed time, and where its order never idles it is the best."""
    setups = Setups(hands, precedence.ancestors)
    work = sum(hands.seconds)
    order, _, least = setups.run(stop, None if cutoff_s is None else cutoff_s - work)
    first = told(problem, precedence, order, work + least, setups.explored)
    limit = first.elapsed_s if cutoff_s is None else min(cutoff_s, first.elapsed_s)
    if first.bound_s >= limit or not precedence.starters or stop():
        return first
    search = Waits(hands, precedence)
    found, bound = search.run(stop, limit, first.bound_s)
    return told(problem, precedence, found or order, bound, setups.explored + search.explored)


def lower_bound(problem: Problem) -> int:
    """Seconds that no order can beat, quickly: the bound at the root of the search. Raises ValueError on a cycle."""
    after = _after(problem)
    original = topological_order(after)
    if original is None:
        raise ValueError("the operations wait for each other in a cycle")
    precedence = Precedence(after, original, _seconds(problem))
    labels = Labels(_hands(problem, precedence), precedence, quick=True)
    return labels.bound(labels.start())


def _twins_in_turn(problem: OrderingProblem, precedence: Precedence) -> Precedence:
    original, after = precedence.original, [list(pairs) for pairs in _after(problem)]
    for first, second in turns_of_twins([problem.operations[index] for index in original], precedence):
        after[original[second]].append((original[first], 0))
    pairs = tuple(map(tuple, after))
    order = topological_order(pairs)
    assert order is not None
    return Precedence(pairs, order, _seconds(problem))


def _after(problem: Problem) -> tuple[tuple[tuple[int, int], ...], ...]:
    if isinstance(problem, OrderingProblem):
        return tuple(operation.after for operation in problem.operations)
    return problem.after


def _seconds(problem: Problem) -> tuple[int, ...]:
    if isinstance(problem, OrderingProblem):
        return tuple(operation.seconds for operation in problem.operations)
    return problem.seconds


def _hands(problem: Problem, precedence: Precedence, stop: Stop = never) -> Hands:
    if isinstance(problem, OrderingProblem):
        return ToolsAndPositions(problem, precedence, stop)
    return Pairwise(problem, precedence)
