"""Whether an opening lifts right out what moving aside would have cleared with less undone."""

from splitpin.access.result import Opening
from splitpin.planning.opening.graph import Graph
from splitpin.planning.opening.states import Away, Node
from splitpin.planning.plant.doings import Lift, Undo


def goes_too_far(opening: Opening, graph: Graph) -> bool:
    """Whether a component is lifted right out though nothing asks for that, and a way that undoes less would do.

    It could only win by undoing for nothing in a wait what the lesser way undoes after it. Cost: one pass over the
    lifts.
    """
    nodes = graph.nodes
    held = {nodes[number] for number in opening.nodes}
    wanted_out = {node.component.id for node in held if isinstance(node, Away) and node.reach == "out"}
    lifts = [
        lift for lift in held if isinstance(lift, Lift) and lift.carrier is None and lift.component.id not in wanted_out
    ]
    if not lifts:
        return False
    after: dict[Node, set[Node]] = {}
    for first, second in opening.before:
        after.setdefault(nodes[first], set()).add(nodes[second])
    return any(_lesser_way(lift, held, after, graph) for lift in lifts)


def _lesser_way(lift: Lift, held: set[Node], after: dict[Node, set[Node]], graph: Graph) -> bool:
    undone = _undone_by(lift, graph)
    others = [
        way
        for way in graph.nodes
        if isinstance(way, Lift)
        and way.carrier is None
        and way.component is lift.component
        and _undone_by(way, graph) < undone
    ]
    if not others:
        return False
    later: set[Node] = {lift}
    while more := {node for earlier in later for node in after.get(earlier, ())} - later:
        later |= more
    free = {undo for undo in undone if after[undo] == {lift}}
    at_hand = held - later
    for way in others:
        met = all(any({*need} <= at_hand for need in needs) for needs in graph.needs[way])
        spared = sum(sum(undo.seconds) for undo in free - _undone_by(way, graph))
        if met and sum(way.seconds) < sum(lift.seconds) + spared:
            return True
    return False


def _undone_by(lift: Lift, graph: Graph) -> set[Undo]:
    """The joints that a lift undoes in place."""
    return {
        undo
        for needs in graph.needs[lift]
        for alternative in needs
        for undo in alternative
        if isinstance(undo, Undo) and not undo.bench
    }
