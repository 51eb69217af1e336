"""Why there is no plan, in words: the needs that cannot be met, each with the place of its rule."""

from splitpin import units
from splitpin.access.result import TARGETS, Cause
from splitpin.notices import Notice, Place
from splitpin.planning.asked.expand import Refused
from splitpin.planning.best.choose import Clash
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import Bared, Isolated, Lift, Node, OfComponent, OfJoint, Standing, Work
from splitpin.planning.plant.plant import Plant


def no_way(causes: tuple[Cause, ...], graph: Graph, plant: Plant) -> tuple[Notice, ...]:
    """The smallest explanation of why nothing opens: the needs without any alternative left, then those that go round
    in a circle.
    """
    names = _Names(graph, plant)
    leaves = [cause for cause in causes if cause.node != TARGETS and (not cause.blockers or cause.circular)]
    return tuple(names.notice(cause) for cause in leaves) or (
        Notice("no-way", "no set of openings reaches what the job asks for", plant.visit.place),
    )


class _Names:
    def __init__(self, graph: Graph, plant: Plant) -> None:
        self.keys = graph.keys
        self.plant = plant

    def notice(self, cause: Cause) -> Notice:
        key = self.keys[cause.node]
        if cause.circular:
            others = units.listed([self.name(self.keys[node]) for node in cause.blockers], "or")
            return Notice("cycle", f"{self.name(key)} waits for {others}, and that waits for it", self.place(key))
        if isinstance(key, Isolated):
            circuit = key.circuit
            ways = units.listed([way.by.replace("-", " ") for way in circuit.isolate])
            return Notice(
                "no-way",
                f"the circuit {circuit.id} cannot be isolated: the job rules out {ways}",
                circuit.place,
                f"take one of them out of rule_out in {self.plant.visit.place.path}",
            )
        if isinstance(key, Lift):
            component = key.component
            if component.closed_to is not None:
                person = self.plant.library.licences[component.closed_to].person
                message = f"the {component.title} would have to be lifted, and only {person} may do that"
                return Notice("closed-to", message, component.place)
        return Notice("no-way", f"{self.name(key)}: there is no way to do it", self.place(key))

    def name(self, key: Node) -> str:
        if isinstance(key, OfComponent):
            return f"the {key.title}"
        if isinstance(key, OfJoint):
            return f"the joint {self.plant.ends(key.joint)}"
        return f"the {key.kind} {key.key[1]}" if isinstance(key, Standing) else key.title

    def place(self, key: Node) -> Place:
        return self.plant.visit.place if isinstance(key, Work | Isolated | Bared) else key.place


def in_a_circle(clash: Clash, plant: Plant) -> tuple[Notice, ...]:
    """The acts that wait for each other."""
    names = [_act_name(clash, key) for key in clash.circle]
    return (Notice("cycle", f"no order exists: {' before '.join(names)}", plant.assembly.place),)


def _act_name(clash: Clash, key: Node) -> str:
    return f'"{clash.programme.acts[key].lines[0].text.rstrip(".")}"'


def closed(refused: tuple[Refused, ...]) -> tuple[Notice, ...]:
    """One notice for each refused task."""
    return tuple(
        Notice(
            "closed-to",
            f"refused: {item.wanted.phrase}: only {item.licence} may open it",
            item.wanted.place,
            "book that person; the plan covers what may be done without",
        )
        for item in refused
    )
