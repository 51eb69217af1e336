"""The clock of an order: what each operation's set-up is, and when it starts, works and ends.

One worker does the operations in their order, each as early as can be: set-up may be done while a lag still runs, and
what idle time is left stands before the set-up. Every time that is told of an order comes from here; the referees
reckon for themselves. By hand: driver (5 s) and front, 60 s; then the same driver at the side, 8 s away, 30 s of work
that begins 100 s after: set-up 5, work 5 to 65; set-up 8 from 157, work 165 to 195, 92 s idle.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from splitpin.ordering.problem import After, OrderingProblem, Problem


class Setup(NamedTuple):
    """What is done before the work: tools picked up (indices), and seconds in all and on the way to the position.

    changes: one if the tools in the hands are others than before, and one if the position is.
    """

    picked: frozenset[int]
    walked_s: int
    seconds: int
    changes: int = 0


class Turn(NamedTuple):
    """One operation in its turn, in seconds: `start_s` its set-up, `work_s` its work, `end_s` both are over.

    idle_s: how long the worker stands still before the set-up.
    """

    operation: int
    setup: Setup
    idle_s: int
    start_s: int
    work_s: int
    end_s: int


def turns(problem: Problem, order: Sequence[int], at_s: int = 0) -> tuple[Turn, ...]:
    """The operations in this order from `at_s` on; the order is a legal one of all or of the first of them.

    KeyError where something comes before its predecessor. Cost: operations plus relations.
    """
    found = []
    ends: dict[int, int] = {}
    free = at_s
    for index, setup in zip(order, _setups(problem, order), strict=True):
        seconds, after = _operation(problem, index)
        ready = max((ends[earlier] + lag for earlier, lag in after), default=at_s)
        work = max(free + setup.seconds, ready)
        start, end = work - setup.seconds, work + seconds
        found.append(Turn(index, setup, start - free, start, work, end))
        ends[index] = free = end
    return tuple(found)


def _operation(problem: Problem, index: int) -> tuple[int, After]:
    if isinstance(problem, OrderingProblem):
        operation = problem.operations[index]
        return operation.seconds, operation.after
    return problem.seconds[index], problem.after[index]


def _setups(problem: Problem, order: Sequence[int]) -> Iterator[Setup]:
    if not isinstance(problem, OrderingProblem):
        row = problem.start_change_s
        for index in order:
            yield Setup(frozenset(), 0, row[index] or 0)
            row = problem.change_s[index]
        return
    hands, place = problem.start_tools, problem.start_position
    for index in order:
        operation = problem.operations[index]
        picked: frozenset[int] = frozenset()
        walked, changes = 0, 0
        if operation.tools:
            picked = operation.tools - hands
            changes += operation.tools != hands
            hands = operation.tools
        if operation.position is not None:
            walked = problem.travel_s[place][operation.position]
            changes += operation.position != place
            place = operation.position
        yield Setup(picked, walked, walked + sum(problem.pickup_s[tool] for tool in picked), changes)
