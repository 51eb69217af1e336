"""Openings that are none: what the search leaves out before it looks at them, told again from the definition."""

from splitpin.access.result import Opening
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import Lift, Undo


def does_twice(opening: Opening, graph: Graph) -> bool:
    """Whether a component leaves, or a joint is undone, in two ways at once: no plan, only a waste of the graph."""
    nodes = [graph.nodes[number] for number in opening.nodes]
    done = [(type(node), node.name) for node in nodes if isinstance(node, Lift | Undo)]
    return len(done) != len(set(done))
