"""Doings of which no opening may hold two, though the graph alone would let it.

One thing is not taken away twice, by two ways or in place and at the bench. And what leaves at the bench with an outer
carrier is still on it: no carrier between the two was lifted out in place before. By hand: a cup on a saucer on a tray:
saucer lifted off the tray in place, the tray out, and the cup taken "from the tray at the bench" is no plan.
"""

from collections.abc import Iterator

from splitpin.planning.opening.graph import Graph
from splitpin.planning.opening.states import Node
from splitpin.planning.plant.doings import Lift, Undo
from splitpin.planning.plant.plant import Plant
from splitpin.records.assembly import Component


def at_odds(graph: Graph, plant: Plant) -> tuple[tuple[Lift | Undo, ...], ...]:
    """Groups of doings, two or more each, of which an opening holds one at most. Cost: doings x depth of carriers."""
    same: dict[tuple[bool, str], list[Lift | Undo]] = {}
    for doing in _physical(graph.nodes):
        same.setdefault((isinstance(doing, Lift), doing.name), []).append(doing)
    found = [tuple(doings) for doings in same.values() if len(doings) > 1]
    for doing in _physical(graph.nodes):
        for inner in _inside(doing, plant):
            for lift in same.get((True, inner.id), ()):
                if isinstance(lift, Lift) and lift.carrier is None and lift.ends == "out":
                    found.append((doing, lift))
    return tuple(found)


def _physical(nodes: tuple[Node, ...]) -> Iterator[Lift | Undo]:
    return (node for node in nodes if isinstance(node, Lift | Undo))


def _inside(doing: Lift | Undo, plant: Plant) -> Iterator[Component]:
    """The carriers between what a doing is about and the carrier with which it is at the bench."""
    if doing.carrier is not None:
        item = plant.carriers(doing.component) if isinstance(doing, Lift) else plant.carriers_around(doing.joint)
        for carrier in item:
            if carrier is doing.carrier:
                return
            yield carrier
