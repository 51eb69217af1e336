"""Components that nothing ever frees.

Which components can never be cleared, whatever is opened first? Everything that can come about is found by adding,
again and again, what has all its requirements met (least fixpoint); the rest is stuck. By hand: a fan behind a pump and
a pump behind the fan are both stuck, but not when the fan has a second way out that is behind nothing.
"""

from collections.abc import Iterable, Iterator

from splitpin.notices import Notice
from splitpin.reading.cycles import Rule, circle_notice, circles, told_from
from splitpin.reading.document import Document
from splitpin.reading.obstacles import Node, Requirement, obstacles
from splitpin.records.assembly import Assembly

Needs = dict[Node, list[Requirement]]
Wait = tuple[Node, Rule | None]


def freedom_notices(document: Document, assembly: Assembly) -> list[Notice]:
    """One notice for each cause: a circle of rules without alternatives, or a component whose every way is stuck.

    What only waits for such a cause is not reported, and a way that can never be gone is no fault while another can.
    The assembly's names are all known and nothing carries itself.
    """
    needs = obstacles(document, assembly)
    stuck = _stuck(needs)
    wanted = [node for node in stuck if node[0] in ("clear", "task")]
    if not wanted:
        return []
    waits = {node: list(_missing(needs[node], stuck, forced=False)) for node in stuck}
    concerned = _reached(wanted, waits)
    forced = {n: [w for w in _missing(needs[n], stuck, forced=True) if w[0] in concerned] for n in concerned}
    notices = []
    told: set[Node] = set()
    for knot, circle in circles({node: forced[node] for node in stuck if node in concerned}):
        notices.append(circle_notice(circle))
        told |= knot
    reach = {node: _reached([other for other, _ in waits[node]], waits) for node in concerned}
    blocked = [node for node in wanted if node[0] == "clear"]
    for node in blocked:
        within = {node} | {other for other in reach[node] if node in reach[other]}
        # The cause is here when every component that this one waits for waits for this one in turn.
        if not told & (reach[node] | {node}) and all(other in within for other in blocked if other in reach[node]):
            notices.append(_never_free(document, assembly, within, waits))
            told |= within
    notices += [_never_out(node, waits) for node in wanted if node[0] == "task" and not told & reach[node]]
    return notices


def _stuck(needs: Needs) -> list[Node]:
    """The nodes that can never come about, in the order of the graph. Cost: nodes x the longest chain of waiting."""
    done: set[Node] = set()
    left = list(needs)
    while True:
        still = []
        for node in left:
            met = all(any(all(other in done for other, _ in way) for way in choice) for choice in needs[node])
            if met:
                done.add(node)
            else:
                still.append(node)
        if len(still) == len(left):
            return left
        left = still


def _missing(requirements: Iterable[Requirement], stuck: Iterable[Node], *, forced: bool) -> Iterator[Wait]:
    """The stuck nodes that a node waits for; with `forced`, those without an alternative alone."""
    among = frozenset(stuck)
    for choice in requirements:
        met = any(all(other not in among for other, _ in way) for way in choice)
        if not met and (len(choice) == 1 or not forced):
            yield from ((other, rule) for way in choice for other, rule in way if other in among)


def _reached(starts: Iterable[Node], waits: dict[Node, list[Wait]]) -> set[Node]:
    found = set(starts)
    ahead = list(found)
    while ahead:
        for other, _ in waits[ahead.pop()]:
            if other not in found:
                found.add(other)
                ahead.append(other)
    return found


def _never_free(document: Document, assembly: Assembly, knot: set[Node], waits: dict[Node, list[Wait]]) -> Notice:
    index, name = next((i, c.id) for i, c in enumerate(assembly.component) if ("clear", c.id) in knot)
    rules = {rule for node in knot for _, rule in waits[node] if rule is not None}
    told = told_from(sorted(rules, key=lambda rule: (rule.place, rule.text)))
    message = f"nothing ever frees `{name}`: each of its ways waits for what can never be"
    return Notice("never-free", message, document.toml.place("component", index, "id"), told)


def _never_out(task: Node, waits: dict[Node, list[Wait]]) -> Notice:
    """A task that wants a component out which only ever goes aside."""
    rule = next(rule for _, rule in waits[task] if rule is not None)
    return Notice(
        "never-free", f"{rule.text}, but no way takes it right out", rule.place, 'give it a way that ends = "out"'
    )
