"""Tasks that cannot be done without opening what is closed to the engineer, set apart with what is closed.

By hand: a fan behind a sealed cooling unit that only a certified person may lift: `replace fan` is refused, and the
refusal names the cooling unit; `clean filter`, in front of it, is planned.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from splitpin.access.causes import why_not
from splitpin.access.result import TARGETS
from splitpin.planning.asked.expand import Refused, Wanted, Wishes
from splitpin.planning.opening.needs import open_graph
from splitpin.planning.plant.doings import Lift, Undo
from splitpin.planning.plant.plant import Plant

if TYPE_CHECKING:
    from splitpin.records.assembly import Component


def apart(wishes: Wishes, plant: Plant) -> Wishes:
    """The same wishes, with each task refused that only what is closed keeps from being reached.

    Cost: one graph, and whether it opens, for each task; nothing on a plant without closed components.
    """
    if all(component.closed_to is None for component in plant.assembly.component):
        return wishes
    may: list[Wanted] = []
    refused = list(wishes.refused)
    for wish in wishes.wanted:
        closed = _in_the_way(wish, plant)
        if closed is None or closed.closed_to is None:
            may.append(wish)
        else:
            refused.append(Refused(wish, closed, plant.library.licences[closed.closed_to].person))
    return replace(wishes, wanted=tuple(may), refused=tuple(refused))


def _in_the_way(wish: Wanted, plant: Plant) -> Component | None:
    """The closed component for which nothing opens; None where the task can be reached, or fails for another reason."""
    graph = open_graph(plant, (wish,))
    nodes = graph.nodes
    for cause in why_not(graph.problem()):
        node = None if cause.node == TARGETS or cause.blockers else nodes[cause.node]
        if isinstance(node, Lift):
            return plant.closed_by(node.component)
        if isinstance(node, Undo):
            return plant.shut_by(node.joint)
    return None
