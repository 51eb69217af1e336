"""The least set-ups of a part of the operations, tools and positions together, whatever was done before it.

Least tool changes plus least position changes, each solved alone, fall short where no order keeps both least. By
hand: the spanner (20 s) at the side and the driver (10 s) at the front come before the chisel (10 s) at the side, and
the front again comes last; from one to the other takes 4 s. Alone, whoever holds the spanner already picks up 20 s of
tools, and whoever stands at the front goes 8 s. Together it is 32 s: the spanner is used at the side first, and then
there are three ways to go.

Exact for its relaxation: any tools and any position that could be at hand are taken to be there at the start, at
once. Our own rule.
"""

from collections.abc import Sequence

from splitpin.ordering.hands import Stances, ToolsAndPositions
from splitpin.ordering.precedence import Precedence, bits
from splitpin.ordering.setups import Setups

MOST_EXPLORED = 500
"""States expanded before the bound reached so far is taken; by trial, nearly all parts need less."""

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
    )
    search = Setups(part, ancestors)
    return search.run(lambda: search.explored >= MOST_EXPLORED, None)[2]


def _with_start(cost_s: Sequence[Sequence[int]], first: list[int]) -> list[list[int]]:
    """The matrix with one kind more, from which each other one is as near as from the nearest of these."""
    rows = [[*row, NEVER] for row in cost_s]
    return [*rows, [*(min(cost_s[kind][other] for kind in first) for other in range(len(cost_s))), 0]]
