"""What the worker holds and where the worker stands, as one number, and what the next operation costs from there.

The search sees only these numbers (a "stance"). With tools and positions a stance is (last tool set, position); with
a pairwise matrix it is the last operation. By hand: with spanner in hand at the front, an operation with the
screwdriver at the roof costs one pick-up and the way front to roof, and leads to the stance (screwdriver, roof).
"""

from collections.abc import Sequence

from splitpin.ordering.changes import LeastChanges, Stop, never
from splitpin.ordering.precedence import Precedence, bits
from splitpin.ordering.problem import OrderingProblem, PairwiseProblem

FORBIDDEN = 1 << 60
"""More than any sum of seconds: marks a change-over that is not allowed."""


class Stances:
    """What operations need, by kind (index of a tool set, of a position, -1 for none), and what a change costs.

    A stance is the kind of tools held times the number of positions, plus the position.
    """

    def __init__(
        self,
        tool_kinds: Sequence[int],
        place_kinds: Sequence[int],
        pickup_s: Sequence[Sequence[int]],
        travel_s: Sequence[Sequence[int]],
        start: int,
        stop: Stop = never,
    ) -> None:
        self.tool_kinds, self.place_kinds = tool_kinds, place_kinds
        self.pickup_s, self.travel_s = pickup_s, travel_s
        self.places = len(travel_s)
        self.start = start
        self.stop = stop
        self._steps: dict[int, list[int]] = {}

    def steps(self, stance: int) -> list[int]:
        """Seconds from a stance to each other one."""
        known = self._steps.get(stance)
        if known is None:
            held, place = divmod(stance, self.places)
            travel = self.travel_s[place]
            known = self._steps[stance] = [pickup + way for pickup in self.pickup_s[held] for way in travel]
        return known

    def tolled(self, changes: int) -> "Stances":
        """The same with a toll for every change-over: its seconds, then whether tools and position change, each one.

        A toll is seconds times `changes` plus the changes; `changes` is more than any order makes.
        """
        return Stances(
            self.tool_kinds,
            self.place_kinds,
            _tolls(self.pickup_s, changes),
            _tolls(self.travel_s, changes),
            self.start,
            self.stop,
        )


def _tolls(cost_s: Sequence[Sequence[int]], changes: int) -> list[list[int]]:
    return [
        [seconds * changes + (other != kind) for other, seconds in enumerate(row)] for kind, row in enumerate(cost_s)
    ]


class ToolsAndPositions(Stances):
    """The stances of an OrderingProblem.

    tolls: the same with least tolls in place of least seconds; see tolled. most_changes: more than any order makes.
    """

    metric = True  # going round by another stance is never quicker, and an operation can leave the stance as it is

    def __init__(self, problem: OrderingProblem, precedence: Precedence, stop: Stop = never) -> None:
        operations = [problem.operations[index] for index in precedence.original]
        self.seconds = [operation.seconds for operation in operations]
        sets: dict[tuple[int, ...], int] = {tuple(sorted(problem.start_tools)): 0}
        tool_kinds = [
            sets.setdefault(tuple(sorted(operation.tools)), len(sets)) if operation.tools else -1
            for operation in operations
        ]
        super().__init__(
            tool_kinds,
            [-1 if operation.position is None else operation.position for operation in operations],
            [[sum(problem.pickup_s[tool] for tool in new if tool not in held) for new in sets] for held in sets],
            problem.travel_s or ((0,),),
            problem.start_position,
            stop,
        )
        self.least_pickups = LeastChanges(self.tool_kinds, self.pickup_s, precedence.ancestors, stop)
        self.least_travel = LeastChanges(self.place_kinds, self.travel_s, precedence.ancestors, stop)
        self.most_changes = 2 * len(operations) + 1
        self.tolls = self.tolled(self.most_changes)
        self._least_toll_of_tools = LeastChanges(self.tool_kinds, self.tolls.pickup_s, precedence.ancestors, stop)
        self._least_toll_of_places = LeastChanges(self.place_kinds, self.tolls.travel_s, precedence.ancestors, stop)
        self._rows: dict[int, tuple[list[int], list[int]]] = {}
        self._no_tools = sum(1 << index for index, kind in enumerate(self.tool_kinds) if kind < 0)
        self._no_place = sum(1 << index for index, kind in enumerate(self.place_kinds) if kind < 0)

    def leaning(self, index: int) -> int:
        """The operations that could idle while leaning on tools or a position that this operation fetched."""
        return (self._no_tools if self.tool_kinds[index] >= 0 else 0) | (
            self._no_place if self.place_kinds[index] >= 0 else 0
        )

    def row(self, stance: int) -> tuple[list[int], list[int]]:
        """Per operation: seconds of set-up from this stance, and the stance it leads to."""
        known = self._rows.get(stance)
        if known is None:
            held, place = divmod(stance, self.places)
            pickup, travel = self.pickup_s[held], self.travel_s[place]
            costs, nexts = [], []
            for tools, position in zip(self.tool_kinds, self.place_kinds, strict=True):
                costs.append((pickup[tools] if tools >= 0 else 0) + (travel[position] if position >= 0 else 0))
                nexts.append((tools if tools >= 0 else held) * self.places + (position if position >= 0 else place))
            known = self._rows[stance] = costs, nexts
        return known

    def within(self, members: int, precedence: Precedence, first: int | None = None) -> int:
        """A lower bound on the set-up seconds of operations (a set that nothing outside it comes after).

        first: an operation before all of them, done before any of them; None for one of them, whose set-up is left out.
        """
        done = ~members & (1 << len(self.seconds)) - 1
        held, places = self.at_first(members, precedence, first)
        return min(self.least_pickups(done, kind) for kind in held) + min(
            self.least_travel(done, kind) for kind in places
        )

    def at_first(self, members: int, precedence: Precedence, first: int | None) -> tuple[list[int], list[int]]:
        """The kinds of tools and the positions that can be at hand when the first of the members begins; as above."""
        done = ~members & (1 << len(self.seconds)) - 1
        if first is None:
            before = done | sum(1 << index for index in bits(members) if not precedence.before[index] & members)
        else:
            before = done & ~precedence.descendants[first]
        held = self._may_be(self.tool_kinds, self.start // self.places, before, first)
        return held, self._may_be(self.place_kinds, self.start % self.places, before, first)

    @staticmethod
    def _may_be(kinds: Sequence[int], start: int, before: int, first: int | None) -> list[int]:
        """The kinds that can be at hand after operations of which these (a set) may be the last."""
        if first is not None and kinds[first] >= 0:
            return [kinds[first]]
        return sorted({start} | {kinds[index] for index in bits(before) if kinds[index] >= 0})

    def rest(self, done: int, stance: int) -> int:
        """A lower bound on the set-up seconds of the operations not done."""
        return self.least_pickups(done, stance // self.places) + self.least_travel(done, stance % self.places)

    def rest_toll(self, done: int, stance: int) -> int:
        """A lower bound on the tolls of the operations not done."""
        held, place = divmod(stance, self.places)
        return self._least_toll_of_tools(done, held) + self._least_toll_of_places(done, place)


class Pairwise:
    """Stances of a PairwiseProblem: the last operation, or the number of operations before the first.

    A change-over changes no tools and no position, so its toll is its seconds.
    """

    metric = False
    most_changes = 1

    def __init__(self, problem: PairwiseProblem, precedence: Precedence) -> None:
        original = precedence.original
        self.size = len(original)
        self.seconds = [problem.seconds[index] for index in original]
        self.start = self.size
        self.tolls = self
        self._nexts = list(range(self.size))
        self._costs = [
            [FORBIDDEN if (entry := row[index]) is None else entry for index in original]
            for row in (*(problem.change_s[index] for index in original), problem.start_change_s)
        ]
        self._least_into = [
            min(
                (
                    self._costs[last][index]
                    for last in range(self.size + 1)
                    if last != index and not precedence.descendants[index] >> last & 1
                ),
            )
            for index in range(self.size)
        ]

    def row(self, stance: int) -> tuple[list[int], list[int]]:
        """Per operation: seconds of change-over from this stance, and the stance it leads to."""
        return self._costs[stance], self._nexts

    def leaning(self, index: int) -> int:
        """As above; a change-over always belongs to the operation that follows."""
        return 0

    def steps(self, stance: int) -> list[int]:
        """As above."""
        return self._costs[stance]

    def within(self, members: int, precedence: Precedence, first: int | None = None) -> int:
        """As above."""
        least = [self._least_into[index] for index in bits(members)]
        return sum(least) - (max(least) if first is None else 0)

    def rest(self, done: int, stance: int) -> int:
        """A lower bound on the change-over seconds of the operations not done: the least arc into each."""
        return sum(least for index, least in enumerate(self._least_into) if not done >> index & 1)

    def rest_toll(self, done: int, stance: int) -> int:
        """As above."""
        return self.rest(done, stance)


Hands = ToolsAndPositions | Pairwise
