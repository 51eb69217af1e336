"""An independent look at an order: legality and every second again from the definition, sharing no code with the
search.

By hand: two operations of 60 s and 30 s with different tools at 10 s a pick-up, the second 100 s after the first: the
work begins at 10 and at max(70 + 10, 70 + 100) = 170, it ends at 200; hands-on 10 + 60 + 10 + 30 = 110; two changes.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from splitpin.ordering.problem import OrderingProblem, PairwiseProblem


@dataclass(frozen=True, slots=True)
class Verification:
    """What the definition says of an order.

    missing, repeated: operations not done, and operations done again or unknown. broken: pairs (predecessor, operation)
    done in the wrong order. forbidden: pairs that may not follow directly, (-1, first) at the start.
    starts_s, ends_s, elapsed_s, hands_on_s, changes as in OrderResult, as far as the order is legal; otherwise empty
    and 0.
    """

    missing: tuple[int, ...] = ()
    repeated: tuple[int, ...] = ()
    broken: tuple[tuple[int, int], ...] = ()
    forbidden: tuple[tuple[int, int], ...] = ()
    starts_s: tuple[int, ...] = ()
    ends_s: tuple[int, ...] = ()
    elapsed_s: int = 0
    hands_on_s: int = 0
    changes: int = 0

    @property
    def legal(self) -> bool:
        """Every operation once, nothing before what must precede it, no forbidden change-over."""
        return not (self.missing or self.repeated or self.broken or self.forbidden)


def check_order(problem: OrderingProblem | PairwiseProblem, order: Sequence[int]) -> Verification:
    """The verification of an order of operation indices. Cost: operations plus relations."""
    if isinstance(problem, OrderingProblem):
        after = [operation.after for operation in problem.operations]
        seconds = [operation.seconds for operation in problem.operations]
    else:
        after, seconds = list(problem.after), list(problem.seconds)
    places = {index: place for place, index in reversed(list(enumerate(order)))}
    missing = tuple(index for index in range(len(seconds)) if index not in places)
    repeated = tuple(
        index for place, index in enumerate(order) if places[index] != place or not 0 <= index < len(seconds)
    )
    if missing or repeated:
        return Verification(missing=missing, repeated=repeated)
    broken = tuple(
        (earlier, index) for index in order for earlier, _ in after[index] if places[earlier] >= places[index]
    )
    setups = _setups(problem, order)
    pairs = zip((-1, *order), order, strict=False)
    forbidden = tuple(pair for pair, setup in zip(pairs, setups, strict=False) if setup is None)
    if broken or forbidden:
        return Verification(broken=broken, forbidden=forbidden)
    free = 0
    starts: list[int] = []
    ends: list[int] = []
    for index, setup in zip(order, setups, strict=True):
        begin = free + (setup or 0)
        for earlier, lag in after[index]:
            begin = max(begin, ends[places[earlier]] + lag)
        starts.append(begin)
        ends.append(free := begin + seconds[index])
    return Verification(
        starts_s=tuple(starts),
        ends_s=tuple(ends),
        elapsed_s=free,
        hands_on_s=sum(seconds) + sum(setup or 0 for setup in setups),
        changes=0 if isinstance(problem, PairwiseProblem) else _changes(problem, order),
    )


def _changes(problem: OrderingProblem, order: Sequence[int]) -> int:
    """How often an operation needs other tools in the hands, or another position, than the last that needed any."""
    operations = [problem.operations[index] for index in order]
    tools = [problem.start_tools, *(operation.tools for operation in operations if operation.tools)]
    places = [problem.start_position, *(place for operation in operations if (place := operation.position) is not None)]
    return sum(a != b for a, b in itertools.pairwise(tools)) + sum(a != b for a, b in itertools.pairwise(places))


def _setups(problem: OrderingProblem | PairwiseProblem, order: Sequence[int]) -> list[int | None]:
    """Seconds of set-up before each operation in turn; None where it is forbidden."""
    if isinstance(problem, PairwiseProblem):
        firsts = [problem.start_change_s[index] for index in order[:1]]
        return firsts + [problem.change_s[a][b] for a, b in itertools.pairwise(order)]
    held, place = problem.start_tools, problem.start_position
    setups: list[int | None] = []
    for operation in (problem.operations[index] for index in order):
        setup = 0
        if operation.tools:
            setup += sum(problem.pickup_s[tool] for tool in operation.tools - held)
            held = operation.tools
        if operation.position is not None:
            setup += problem.travel_s[place][operation.position]
            place = operation.position
        setups.append(setup)
    return setups
