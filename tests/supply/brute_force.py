"""Every load there is, by definition."""

from collections.abc import Iterator
from itertools import product

from splitpin.supply import LoadProblem
from splitpin.supply.check import expected_cost


def loads(problem: LoadProblem) -> Iterator[tuple[int, ...]]:
    """All numbers of pieces that the stock and the limits allow; what is aboard stays aboard."""
    for drawn in product(*(range(item.stock + 1) for item in problem.items)):
        mass = sum(n * item.mass for n, item in zip(drawn, problem.items, strict=True))
        volume = sum(n * item.volume for n, item in zip(drawn, problem.items, strict=True))
        if (problem.mass is None or mass <= problem.mass) and (problem.volume is None or volume <= problem.volume):
            yield tuple(n + item.aboard for n, item in zip(drawn, problem.items, strict=True))


def least_cost(problem: LoadProblem, *, all_or_nothing: bool = False) -> float:
    """The least expected cost over all of them."""
    return min(expected_cost(problem, counts, all_or_nothing=all_or_nothing) for counts in loads(problem))
