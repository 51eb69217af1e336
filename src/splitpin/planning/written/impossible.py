"""Why there is no plan, in words: the needs that cannot be met, each with the place of its rule."""

from splitpin import units
from splitpin.access.listing import openings
from splitpin.access.result import TARGETS, Cause
from splitpin.notices import Notice
from splitpin.planning.asked.expand import Refused
from splitpin.planning.best.choose import Clash
from splitpin.planning.opening.at_odds import at_odds
from splitpin.planning.opening.graph import Graph
from splitpin.planning.opening.states import Away, Bared, Isolated, Node, Reach
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act

_ENDS: dict[Reach, str] = {
    "out": "right out",
    "out in place": "right out in place",
    "aside": "aside, while what it carries stays in place",
    "aside at the bench": "aside at the bench",
}


def no_way(causes: tuple[Cause, ...], graph: Graph, plant: Plant) -> tuple[Notice, ...]:
    """The smallest explanation of why nothing opens: the needs without any alternative left, then those that go round
    in a circle.
    """
    nodes = graph.nodes
    held = [cause for cause in causes if cause.node != TARGETS]
    leaves = [_notice(nodes[cause.node], plant) for cause in held if not cause.blockers]
    return (*dict.fromkeys(leaves), *_circle([cause for cause in held if cause.circular], nodes))


def _circle(causes: list[Cause], nodes: tuple[Node, ...]) -> tuple[Notice, ...]:
    """What waits for what in a circle, each pair of things once; a thing and its ways are one."""
    pairs: dict[tuple[str, str], None] = {}
    for cause in causes:
        one = nodes[cause.node].phrase
        pairs.update({(one, nodes[number].phrase): None for number in cause.blockers if nodes[number].phrase != one})
    if not causes:
        return ()
    waits = {one: list(dict.fromkeys(other for first, other in pairs if first == one)) for one, _ in pairs}
    told = "; ".join(f"{one} waits for {units.listed(others, 'or')}" for one, others in waits.items())
    first = nodes[causes[0].node]
    hint = "give one of them another way, or take what need not be clear out of `behind`"
    message = f"these wait for each other: {told or first.phrase}"
    return (Notice("cycle", message, first.place, hint),)


def _notice(node: Node, plant: Plant) -> Notice:
    """A need without an alternative, and what would give it one."""
    circuit = node.circuit if isinstance(node, Isolated | Bared) else None
    if circuit is not None:
        ways = units.listed([way.by.replace("-", " ") for way in circuit.isolate])
        return Notice(
            "no-way",
            f"the circuit {circuit.id} cannot be isolated: the job rules out {ways}",
            circuit.place,
            f"take one of them out of rule_out in {plant.visit.place.path}",
        )
    if isinstance(node, Away):
        message = f"{node.phrase} has no way {_ENDS.get(node.reach, 'to leave')}"
        return Notice("no-way", message, node.place, "add a [[component.way]] that ends so")
    return Notice("no-way", f"{node.phrase}: nothing brings this about", node.place)


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
