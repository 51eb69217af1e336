"""Step 7: why each thing is in the plan, as a chain of rules from the step back to the task, each with its file and
line.
"""

from collections import deque
from collections.abc import Iterator

from splitpin.access.result import Opening
from splitpin.planning.opening.graph import Graph
from splitpin.planning.opening.states import Away, Bared, Isolated, Node, Undone
from splitpin.planning.plant.doings import DOINGS, Doing, Lift, Make, Undo, Work, turn
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.demands import Demand
from splitpin.planning.programme.wording import cite
from splitpin.units import listed


class Why:
    """Chains over one opening: from every node the shortest way along needs to a task; ties to the node met first."""

    def __init__(self, opening: Opening, graph: Graph, plant: Plant) -> None:
        self.plant = plant
        self.asker: dict[Node, Node] = {}
        nodes = graph.nodes
        needs: dict[Node, list[Node]] = {}
        for before, after in opening.before:
            needs.setdefault(nodes[after], []).append(nodes[before])
        tasks = [node for number in opening.nodes if isinstance(node := nodes[number], Work)]
        tasks.sort(key=turn)
        waiting: deque[Node] = deque(tasks)
        seen = set(waiting)
        while waiting:
            node = waiting.popleft()
            for earlier in needs.get(node, ()):
                if earlier not in seen:
                    seen.add(earlier)
                    self.asker[earlier] = node
                    waiting.append(earlier)

    def path(self, doing: Doing) -> Iterator[tuple[Doing, Node, Doing]]:
        """From a doing to the task: each doing with the node that needs it and the doing that this stands for."""
        while not isinstance(doing, Work):
            through = asker = self.asker[doing]
            while not isinstance(asker, DOINGS):
                asker = self.asker[asker]
            yield doing, through, asker
            doing = asker

    def chain(self, doing: Doing) -> tuple[str, ...]:
        """The sentences from a strip doing to the task, nearest first."""
        sentences = []
        for earlier, through, asker in self.path(doing):
            sentences.append(_rule(earlier, through, asker, self.plant))
            doing = asker
        assert isinstance(doing, Work)
        sentences.append(cite(f"{doing.wanted.asked} asks to {doing.title}", doing.place))
        return tuple(sentences)


def _rule(doing: Doing, through: Node, asker: Doing, plant: Plant) -> str:
    """Why one doing comes before another: `through` is the state that it brings about for that, or that doing."""
    who, what = asker.title, doing.title
    match through:
        case Away(reach="out") if isinstance(asker, Work):
            return cite(f"the {what} is wanted out", asker.place)
        case Away(reach="out"):
            return cite(f"the {what} comes out first, then the {who} can be reached at the bench", asker.place)
        case Away(reach="out in place"):
            return cite(f"the {what} takes along what is in the way of the {who}", asker.place)
        case Away():
            return cite(f"the {what} is in the way of the {who}", asker.place)
        case Undone():
            return cite(f"the joint {what} holds the {who}", doing.place)
        case Isolated():
            return cite(f"the {through.title} circuit is opened at the {who}: {what} comes first", through.place)
        case Bared():
            return cite(f"the {who} guards {through.medium.title}: {what} comes first", asker.place)
        case Lift() if isinstance(doing, Undo):
            return cite(f"the joint {what} holds the {who}", doing.place)
        case Lift():
            opened = listed([f"the {row.title}" for row in plant.opened_after(through.component, doing.name)])
            return cite(f"{opened} is opened with the {who}: {what} comes first", asker.place)
        case Make():
            return cite(f"{what} comes before {who}", asker.place)
        case Undo():
            return cite(f"the joint {who} is not undone before: {what}", asker.place)
    return cite(f"the task needs {what}", asker.place)


def of_proof(demand: Demand) -> tuple[str, ...]:
    """What brought a proof: each rule once, with its place."""
    return tuple(dict.fromkeys(cite(rule, place) for rule, place in demand.rules))
