"""The question: operations for one worker, what must come before what, and what a change-over costs.

Everything is a plain whole number: seconds, and indices of operations, tools and positions. An operation is hands-on
work; a lag is a wait that runs by itself (cooling, draining) and keeps the worker free.

By hand: operation 0 takes 60 s with tool 0, operation 1 takes 30 s with tool 1, operation 2 takes 45 s with tool 0
again, each tool takes 10 s to pick up, nothing else is said. Order 0, 2, 1 costs 60 + 45 + 30 + two pick-ups = 155 s;
order 0, 1, 2 picks up three times and costs 165 s.
"""

from collections.abc import Sequence
from dataclasses import dataclass

After = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Operation:
    """One piece of hands-on work.

    seconds: without set-up, 0 or more. tools: the exact set in the hands; empty keeps whatever is in hand. position:
    index of the position, or None for wherever one stands. after: pairs (predecessor, lag in seconds): the work may
    begin no earlier than the predecessor's end plus the lag. Raises ValueError for negative seconds or lags.
    """

    seconds: int
    tools: frozenset[int] = frozenset()
    position: int | None = None
    after: After = ()

    def __post_init__(self) -> None:
        if self.seconds < 0:
            raise ValueError(f"seconds must be 0 or more, not {self.seconds}")
        _guard_lags(self.after)


@dataclass(frozen=True, slots=True)
class OrderingProblem:
    """Operations with tools and positions.

    The set-up before an operation is hands-on time: pickup_s of each of its tools that the last operation with tools
    did not use, plus travel_s from the last position to its own. It may be done while a lag still runs.
    pickup_s: seconds per tool index. travel_s: seconds from row to column, zero diagonal, not always symmetric;
    where a detour is quicker than the direct way the quicker way is taken (the matrix is closed on construction).
    Raises ValueError when an index, a shape or a sign is wrong. A cycle is not an error: it is found by the search.
    """

    operations: tuple[Operation, ...]
    pickup_s: tuple[int, ...]
    travel_s: tuple[tuple[int, ...], ...]
    start_position: int = 0
    start_tools: frozenset[int] = frozenset()

    def __post_init__(self) -> None:
        tools, positions = range(len(self.pickup_s)), range(len(self.travel_s))
        if any(seconds < 0 for seconds in self.pickup_s):
            raise ValueError("pickup_s must be 0 or more")
        if self.start_position not in positions and (self.start_position != 0 or self.travel_s):
            raise ValueError(f"start_position {self.start_position} is not a position")
        if any(tool not in tools for tool in self.start_tools):
            raise ValueError("start_tools names a tool without pickup_s")
        for index, operation in enumerate(self.operations):
            _guard_after(index, operation.after, len(self.operations))
            if any(tool not in tools for tool in operation.tools):
                raise ValueError(f"operation {index} uses a tool without pickup_s")
            if operation.position is not None and operation.position not in positions:
                raise ValueError(f"operation {index} is at a position without travel_s")
        object.__setattr__(self, "travel_s", closed_travel(self.travel_s))


@dataclass(frozen=True, slots=True)
class PairwiseProblem:
    """Operations with a general change-over matrix in place of tools and positions: for the visiting order of a round.

    seconds: per operation, without change-over. after: per operation, pairs (predecessor, lag in seconds).
    change_s: seconds from row directly to column, None where the column may not follow the row directly;
    no triangle inequality is asked for. start_change_s: seconds to each operation when it comes first, or None.
    The change-over is hands-on and may be done while a lag still runs. Raises ValueError as OrderingProblem does.
    """

    seconds: tuple[int, ...]
    after: tuple[After, ...]
    change_s: tuple[tuple[int | None, ...], ...]
    start_change_s: tuple[int | None, ...]

    def __post_init__(self) -> None:
        size = len(self.seconds)
        if any(seconds < 0 for seconds in self.seconds):
            raise ValueError("seconds must be 0 or more")
        if not size == len(self.after) == len(self.change_s) == len(self.start_change_s):
            raise ValueError("seconds, after, change_s and start_change_s must have the same length")
        for index, after in enumerate(self.after):
            _guard_lags(after)
            _guard_after(index, after, size)
        for row in (*self.change_s, self.start_change_s):
            if len(row) != size or any(entry is not None and entry < 0 for entry in row):
                raise ValueError("change-overs must be a square of None or 0 and more")


Problem = OrderingProblem | PairwiseProblem


def closed_travel(travel_s: Sequence[Sequence[int]]) -> tuple[tuple[int, ...], ...]:
    """The same matrix with every entry replaced by the quickest way over any positions between.

    Raises ValueError unless it is square, 0 or more, with a zero diagonal. Cost: cube of the number of positions.
    Source: R. W. Floyd 1962, algorithm 97 (from memory).
    """
    size = range(len(travel_s))
    for index, row in enumerate(travel_s):
        if len(row) != len(travel_s) or row[index] != 0 or min(row) < 0:
            raise ValueError("travel_s must be a square of 0 and more with a zero diagonal")
    rows = [list(row) for row in travel_s]
    for middle in size:
        onward = rows[middle]
        for row in rows:
            to_middle = row[middle]
            for end in size:
                if to_middle + onward[end] < row[end]:
                    row[end] = to_middle + onward[end]
    return tuple(tuple(row) for row in rows)


def _guard_lags(after: After) -> None:
    if any(lag < 0 for _, lag in after):
        raise ValueError("a lag must be 0 or more")


def _guard_after(index: int, after: After, size: int) -> None:
    if any(not 0 <= before < size for before, _ in after):
        raise ValueError(f"operation {index} comes after an operation that does not exist")
