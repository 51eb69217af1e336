"""Which openings can still win, asked of sets of nodes while they grow, so that hopeless ones are never listed.

A set is out when it holds two doings that are at odds (a component lifted twice, a joint undone twice: no plan, only a
waste of the graph), when it holds all the doings of an opening already tried and more (nothing is opened that nothing
asked for), or when it takes more than the best at the least. Each stays true of every larger set. By hand: cover,
pump in place was tried; every opening that also takes the tray out and needs cover and pump in place is out.
"""

from collections.abc import Iterable

from splitpin.planning.best.least import LeastElapsed
from splitpin.planning.opening.at_odds import at_odds
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import DOINGS, Doing, Doings
from splitpin.planning.plant.plant import Plant


class Rivals:
    """The openings of one graph against what has been tried of them; `best_s` is the best elapsed time so far."""

    def __init__(self, graph: Graph, plant: Plant, least: LeastElapsed, *, nothing_more: bool) -> None:
        self.best_s: int | None = None
        self._least = least
        self._nothing_more = nothing_more
        self._number = {node: number for number, node in enumerate(graph.nodes)}
        self._doings = sum(1 << number for node, number in self._number.items() if isinstance(node, DOINGS))
        self._one_of = [self._bits(doings) for doings in at_odds(graph, plant)]
        self._tried: dict[int, list[Doings]] = {}

    def out(self, held: int) -> bool:
        """Whether no opening that holds these nodes can win. Cost: one pass over what was tried, and over the set."""
        for nodes in self._one_of:
            both = held & nodes
            if both & (both - 1):
                return True
        if self.best_s is None:
            return False
        return self._holds_more(held & self._doings) or self._least.of(held) > self.best_s

    def is_new(self, doings: Doings) -> bool:
        """Whether an opening of these doings in this order, or of some of them, has not been tried."""
        bits = self._bits(doings)
        return doings not in self._tried.get(bits, ()) and not self._holds_more(bits)

    def _holds_more(self, doings: int) -> bool:
        """Whether these doings are all those of an opening already tried, and more."""
        return self._nothing_more and any(not tried & ~doings and tried != doings for tried in self._tried)

    def add(self, doings: Doings) -> None:
        """An opening that has been tried."""
        self._tried.setdefault(self._bits(doings), []).append(doings)

    def __len__(self) -> int:
        return sum(map(len, self._tried.values()))

    def _bits(self, doings: Iterable[Doing]) -> int:
        return sum(1 << self._number[doing] for doing in doings)
