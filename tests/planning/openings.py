"""Openings that are none: what the search leaves out before it looks at them, told again from the definition."""

from splitpin.access.result import Opening
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import Lifting, Physical


def does_twice(opening: Opening, graph: Graph) -> bool:
    """Whether a component leaves, or a joint is undone, in two ways at once: no plan, only a waste of the graph."""
    keys = [graph.keys[node] for node in opening.nodes]
    done = [(isinstance(key, Lifting), key.key[1]) for key in keys if isinstance(key, Physical)]
    return len(done) != len(set(done))
