"""The least set-ups of a part of the operations, tools and positions together, whatever was done before it, or from a
state on.

Least tool changes plus least position changes, each solved alone, fall short where no order keeps both least. By
hand: the spanner (20 s) at the side and the driver (10 s) at the front come before the chisel (10 s) at the side, and
the front again comes last; from one to the other takes 4 s. Alone, whoever holds the spanner already picks up 20 s of
tools, and whoever stands at the front goes 8 s. Together it is 32 s: the spanner is used at the side first, and then
there are three ways to go.

Exact for its relaxation: any tools and any position that could be at hand are taken to be there at the start, at
once. From a state on nothing is relaxed but the waits. Our own rules.
"""

from collections.abc import Callable, Sequence

from splitpin.ordering.hands import Stances, ToolsAndPositions
from splitpin.ordering.precedence import Precedence, bits
from splitpin.ordering.setups import Setups

MOST_EXPLORED = 500
"""States expanded before the bound reached so far is taken; by trial, nearly all parts need less."""

MOST_STATES = 3_000
"""States whose least set-ups are remembered before the sum of the two parts must do for the others; by trial."""

NEVER = 1 << 40
"""Seconds to go back to the start of a part: nobody does."""


def least_setups(hands: ToolsAndPositions, precedence: Precedence, members: int, first: int | None = None) -> int:
    """A lower bound on the set-up seconds of operations (a set that nothing outside it comes after).

    first: an operation before all of them, done before any of them; None for one of them, whose set-up is left out.
    Cost: one search over the members, of bounded length.
    """
    indices = list(bits(members))
    number = {index: place for place, index in enumerate(indices)}
    ancestors = [
        sum(1 << number[earlier] for earlier in bits(precedence.ancestors[index] & members)) for index in indices
    ]
    held, places = hands.at_first(members, precedence, first)
    part = Stances(
        [hands.tool_kinds[index] for index in indices],
        [hands.place_kinds[index] for index in indices],
        _with_start(hands.pickup_s, held),
        _with_start(hands.travel_s, places),
        (len(hands.pickup_s) + 1) * (len(hands.travel_s) + 1) - 1,
        hands.stop,
    )
    search = Setups(part, ancestors)
    return search.run(lambda: search.explored >= MOST_EXPLORED or hands.stop(), None)[2]


def _with_start(cost_s: Sequence[Sequence[int]], first: list[int]) -> list[list[int]]:
    """The matrix with one kind more, from which each other one is as near as from the nearest of these."""
    rows = [[*row, NEVER] for row in cost_s]
    return [*rows, [*(min(cost_s[kind][other] for kind in first) for other in range(len(cost_s))), 0]]


class RestTogether:
    """The least set-ups from a state on, as if no wait took time; remembered, and exact until there are too many.

    What can be done in the stance at hand is done at once, so a state is closed and only the next stance is left to
    choose, the promising ones first.
    """

    def __init__(self, stances: Stances, precedence: Precedence, apart: Callable[[int, int], int]) -> None:
        self._stances, self._before, self._apart = stances, precedence.before, apart
        self._needs = list(zip(stances.tool_kinds, stances.place_kinds, strict=True))
        self._everything = (1 << precedence.size) - 1
        self._blocks: dict[int, list[tuple[int, int]]] = {}
        self._known: dict[tuple[int, int], int] = {}

    def __call__(self, done: int, stance: int) -> int:
        """Seconds that the set-ups of the operations not done take at the least."""
        for needed, member in self._block(stance):
            if needed & done == needed:
                done |= member
        if done == self._everything:
            return 0
        known = self._known.get((done, stance))
        if known is not None:
            return known
        if len(self._known) > MOST_STATES or self._stances.stop():
            return self._apart(done, stance)
        least = -1
        for bound, cost, target in sorted(self._targets(done, stance)):
            if 0 <= least <= bound:
                break
            seconds = cost + self(done, target)
            if least < 0 or seconds < least:
                least = seconds
        self._known[done, stance] = least
        return least

    def _block(self, stance: int) -> list[tuple[int, int]]:
        """What can be done in a stance: pairs (what must be done before, the operation), as sets."""
        known = self._blocks.get(stance)
        if known is None:
            held, place = divmod(stance, self._stances.places)
            known = self._blocks[stance] = [
                (self._before[index], 1 << index)
                for index, (tools, position) in enumerate(self._needs)
                if tools in (-1, held) and position in (-1, place)
            ]
        return known

    def _targets(self, done: int, stance: int) -> set[tuple[int, int, int]]:
        """The stances that something can be done in, each with its cost and a bound that begins with it."""
        held, place = divmod(stance, self._stances.places)
        steps = self._stances.steps(stance)
        targets = set()
        for index in bits(self._everything & ~done):
            if not self._before[index] & ~done:
                tools, position = self._needs[index]
                goal = (tools if tools >= 0 else held) * self._stances.places + (position if position >= 0 else place)
                targets.add(goal)
        return {(steps[goal] + self._apart(done, goal), steps[goal], goal) for goal in targets}
