"""Step 7: why each thing is in the plan, as a chain of rules from the step back to the task, each with its file and
line.
"""

from collections import deque

from splitpin.access.result import Opening
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import (
    Bared,
    Cleared,
    Doing,
    Isolated,
    Lifting,
    Make,
    Node,
    OfJoint,
    Out,
    Undone,
    Work,
)
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.demands import Demand
from splitpin.planning.programme.wording import cite


class Why:
    """Chains over one opening: from every node the shortest way along needs to a task; ties to the node met first."""

    def __init__(self, opening: Opening, graph: Graph, plant: Plant) -> None:
        self.plant = plant
        self.asker: dict[Node, Node] = {}
        keys = graph.keys
        needs: dict[Node, list[Node]] = {}
        for before, after in opening.before:
            needs.setdefault(keys[after], []).append(keys[before])
        waiting = deque(sorted(keys[node] for node in opening.nodes if isinstance(keys[node], Work)))
        seen = set(waiting)
        while waiting:
            key = waiting.popleft()
            for earlier in needs.get(key, ()):
                if earlier not in seen:
                    seen.add(earlier)
                    self.asker[earlier] = key
                    waiting.append(earlier)

    def chain(self, doing: Node) -> tuple[str, ...]:
        """The sentences from a strip doing to the task, nearest first."""
        sentences = []
        key = doing
        while not isinstance(key, Work):
            through = self.asker[key]
            state = through
            while not isinstance(through, Doing):
                through = self.asker[through]
            sentences.append(self._rule(key, state, through))
            key = through
        sentences.append(cite(f"{key.wanted.asked} asks to {key.title}", key.place))
        return tuple(sentences)

    def _rule(self, doing: Node, state: Node, asker: Node) -> str:
        who = self._name(asker)
        what = self._name(doing)
        place = asker.place
        if isinstance(state, Cleared):
            return cite(f"the {what} is in the way of the {who}", place)
        if isinstance(state, Out):
            reason = (
                "is wanted out"
                if isinstance(asker, Work)
                else f"comes out first, then the {who} can be reached at the bench"
            )
            return cite(f"the {what} {reason}", place)
        if isinstance(state, Undone):
            return cite(f"the joint {what} holds the {who}", doing.place)
        if isinstance(state, Isolated):
            return cite(f"the {state.title} circuit is opened at the {who}: {what} comes first", state.place)
        if isinstance(state, Bared):
            return cite(f"the {who} guards {state.title}: {what} comes first", place)
        if isinstance(asker, Lifting):
            return cite(f"the {who} closes a boundary: {what} comes before it is opened", place)
        if isinstance(asker, Make):
            return cite(f"{what} comes before {who}", place)
        return cite(f"the task needs {what}", place)

    def _name(self, key: Node) -> str:
        return self.plant.ends(key.joint) if isinstance(key, OfJoint) else key.title


def of_proof(demand: Demand) -> tuple[str, ...]:
    """What brought a proof: each rule once, with its place."""
    return tuple(dict.fromkeys(cite(rule, place) for rule, place in demand.rules))
