"""Why there is no plan, in words: the needs that cannot be met, each with the place of its rule."""

from splitpin import units
from splitpin.access.listing import openings
from splitpin.access.result import TARGETS, Cause
from splitpin.notices import Notice
from splitpin.planning.asked.expand import Refused
from splitpin.planning.best.choose import Clash
from splitpin.planning.opening.at_odds import at_odds
from splitpin.planning.opening.graph import Graph
from splitpin.planning.opening.states import Bared, Isolated, Node
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act


def no_way(causes: tuple[Cause, ...], graph: Graph, plant: Plant) -> tuple[Notice, ...]:
    """The smallest explanation of why nothing opens: the needs without any alternative left, then those that go round
    in a circle.
    """
    leaves = [cause for cause in causes if cause.node != TARGETS and (not cause.blockers or cause.circular)]
    return tuple(_notice(cause, graph.nodes, plant) for cause in leaves) or (
        Notice("no-way", "no set of openings reaches what the job asks for", plant.visit.place),
    )


def _notice(cause: Cause, nodes: tuple[Node, ...], plant: Plant) -> Notice:
    node = nodes[cause.node]
    if cause.circular:
        others = units.listed([nodes[number].phrase for number in cause.blockers], "or")
        return Notice("cycle", f"{node.phrase} waits for {others}, and that waits for it", node.place)
    circuit = node.circuit if isinstance(node, Isolated | Bared) else None
    if circuit is not None:
        ways = units.listed([way.by.replace("-", " ") for way in circuit.isolate])
        return Notice(
            "no-way",
            f"the circuit {circuit.id} cannot be isolated: the job rules out {ways}",
            circuit.place,
            f"take one of them out of rule_out in {plant.visit.place.path}",
        )
    return Notice("no-way", f"{node.phrase}: there is no way to do it", node.place)


def at_odds_with_itself(graph: Graph, plant: Plant) -> Notice:
    """Every opening takes one thing away twice, or takes it with a carrier that it has left: what, in the cheapest."""
    opening = next(openings(graph.problem()))
    held = {graph.nodes[number] for number in opening.nodes}
    first = next(doings for doings in at_odds(graph, plant) if len(held & {*doings}) > 1)[0]
    message = f"{first.phrase} would have to come away in two ways at once"
    return Notice("no-way", message, first.place, "look at its ways and at what carries it")


def in_a_circle(clash: Clash, plant: Plant) -> tuple[Notice, ...]:
    """The acts that wait for each other."""
    names = [_act_name(act) for act in clash.circle]
    return (Notice("cycle", f"no order exists: {' before '.join(names)}", plant.assembly.place),)


def _act_name(act: Act) -> str:
    return f'"{act.lines[0].text.rstrip(".")}"'


def closed(refused: tuple[Refused, ...]) -> tuple[Notice, ...]:
    """One notice for each refused task."""
    return tuple(
        Notice(
            "closed-to",
            f"refused: {item.wanted.phrase}: {item.reason}",
            item.wanted.place,
            "book that person; the plan covers what may be done without",
        )
        for item in refused
    )
