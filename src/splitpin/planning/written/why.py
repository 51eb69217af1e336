"""Step 7: why each thing is in the plan, as a chain of rules from the step back to the task, each with its file and
line.
"""

from collections import deque

from splitpin.access.result import Opening
from splitpin.notices import Place
from splitpin.planning.asked.expand import Wanted
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.keys import DOINGS, LIFTING, UNDOING, Key
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.demands import Demand
from splitpin.planning.programme.wording import cite, ends


class Why:
    """Chains over one opening: from every node the shortest way along needs to a task; ties to the node met first."""

    def __init__(self, opening: Opening, graph: Graph, plant: Plant, wanted: tuple[Wanted, ...]) -> None:
        self.plant = plant
        self.wanted = wanted
        self.joints = {joint.id: joint for joint in plant.assembly.joint}
        self.asker: dict[Key, Key] = {}
        keys = graph.keys
        needs: dict[Key, list[Key]] = {}
        for before, after in opening.before:
            needs.setdefault(keys[after], []).append(keys[before])
        waiting = deque(sorted(keys[node] for node in opening.nodes if keys[node][0] == "work"))
        seen = set(waiting)
        while waiting:
            key = waiting.popleft()
            for earlier in needs.get(key, ()):
                if earlier not in seen:
                    seen.add(earlier)
                    self.asker[earlier] = key
                    waiting.append(earlier)

    def chain(self, doing: Key) -> tuple[str, ...]:
        """The sentences from a strip doing to the task, nearest first."""
        sentences = []
        key = doing
        while key[0] != "work":
            through = self.asker[key]
            state = through
            while through[0] not in DOINGS:
                through = self.asker[through]
            sentences.append(self._rule(key, state, through))
            key = through
        wanted = self.wanted[int(key[1])]
        sentences.append(cite(f"{wanted.asked} asks to {wanted.phrase}", wanted.place))
        return tuple(sentences)

    def _rule(self, doing: Key, state: Key, asker: Key) -> str:
        who = self._name(asker)
        what = self._name(doing)
        place = self._place(asker)
        if state[0] in ("clear", "moved", "aside", "clear-bench"):
            return cite(f"the {what} is in the way of the {who}", place)
        if state[0] == "out":
            reason = (
                "is wanted out"
                if asker[0] == "work"
                else f"comes out first, then the {who} can be reached at the bench"
            )
            return cite(f"the {what} {reason}", place)
        if state[0] == "undone":
            return cite(f"the joint {what} holds the {who}", self._place(doing))
        if state[0] == "isolated":
            circuit = self.plant.circuit(state[1])
            name = circuit.title or self.plant.library.media[circuit.medium].title
            return cite(f"the {name} circuit is opened at the {who}: {what} comes first", circuit.place)
        if state[0] == "bared":
            return cite(f"the {who} guards {self.plant.library.media[state[1]].title}: {what} comes first", place)
        if asker[0] in LIFTING:
            return cite(f"the {who} closes a boundary: {what} comes before it is opened", place)
        if asker[0] == "make":
            return cite(f"{what} comes before {who}", place)
        return cite(f"the task needs {what}", place)

    def _name(self, key: Key) -> str:
        if key[0] in LIFTING:
            return self.plant.component(key[1]).title
        if key[0] in UNDOING:
            return ends(self.joints[key[1]], self.plant)
        if key[0] == "make":
            return self.plant.library.conditions[key[1]].title
        return self.wanted[int(key[1])].phrase

    def _place(self, key: Key) -> Place:
        if key[0] in LIFTING:
            return self.plant.component(key[1]).place
        if key[0] in UNDOING:
            return self.joints[key[1]].place
        if key[0] == "make":
            return self.plant.library.conditions[key[1]].place
        return self.wanted[int(key[1])].place


def of_proof(demand: Demand) -> tuple[str, ...]:
    """What brought a proof: each rule once, with its place."""
    return tuple(dict.fromkeys(cite(rule, place) for rule, place in demand.rules))
