"""The problem with everything forced already worked out: only the true choices are left.

Three facts are drawn from the targets down. A node is out of reach when no order can arrive at it, so every
alternative that names it goes. A node *forces* the nodes that every way of opening it must contain: the largest
solution of forced(n) = {n} + what all alternatives of a need have in common, over all its needs. An alternative
that forces the very node it serves is circular and goes too. What keeps two or more alternatives is a choice.

Sets of nodes are integers, one bit a node; each fixed charge is one more bit behind the nodes.

By hand: node 2 needs {0} or {1}, and 0 and 1 both need 3. Whoever wants 2 has {2, 3} forced; the choice left is
{0} or {1}, each adding only itself.

Source: the forced nodes are the causal landmarks of a delete-free plan (Keyder, Richter & Helmert 2010, from
memory), for which this largest solution is complete.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from splitpin.access.problem import AccessProblem
from splitpin.access.result import TARGETS


@dataclass(frozen=True, slots=True)
class Way:
    """One alternative of a choice: its number, its own nodes, all it forces, and the choices that brings up."""

    number: int
    nodes: int
    forces: int
    raises: int


@dataclass(frozen=True, slots=True)
class Choice:
    """A need with two or more alternatives left; owner is its node or -1 for the targets."""

    owner: int
    need: int
    ways: tuple[Way, ...]


@dataclass(frozen=True, slots=True)
class Reduction:
    """What is forced by the targets, what is settled for each node, and the choices that remain.

    forced: bits of every node and charge that every opening contains. raised: bits of the choices they bring up.
    choices: by number, targets first, then by node and need.
    settled: for each node (and -1), the needs with one alternative left, as (need, alternative, node bits).
    weights: cost of each bit, charges behind the nodes.
    """

    forced: int
    raised: int
    choices: tuple[Choice, ...]
    settled: dict[int, tuple[tuple[int, int, int], ...]]
    weights: tuple[int, ...]

    def price(self, bits: int) -> int:
        """Cost of a set of nodes and charges given as bits."""
        weights = self.weights
        return sum(weights[bit] for bit in members(bits))


def members(bits: int) -> Iterator[int]:
    """The positions of the set bits, rising."""
    while bits:
        lowest = bits & -bits
        yield lowest.bit_length() - 1
        bits ^= lowest


@dataclass(slots=True)
class _Need:
    owner: int
    number: int
    ways: list[tuple[int, int]]  # (alternative number, node bits)


def _needs_within_reach(problem: AccessProblem) -> dict[int, list[_Need]]:
    """The needs of the targets and of every node some chain of alternatives leads to."""
    found: dict[int, list[_Need]] = {}
    waiting = [TARGETS]
    while waiting:
        owner = waiting.pop()
        if owner in found:
            continue
        needs = problem.targets if owner == TARGETS else problem.nodes[owner].needs
        found[owner] = []
        for number, need in enumerate(needs):
            ways = []
            for alternative, nodes in enumerate(need):
                bits = 0
                for node in nodes:
                    bits |= 1 << node
                    if node not in found:
                        waiting.append(node)
                ways.append((alternative, bits))
            found[owner].append(_Need(owner, number, ways))
    return found


def openable(problem: AccessProblem) -> tuple[list[int], int]:
    """The nodes within reach of the targets that some order arrives at: as a list in such an order, and as bits.

    The targets stand in the list as -1 when they can be met. Work grows with the total size of the alternatives
    times the longest run of needs that wait on each other (rarely more than a few passes).
    """
    return _arrivals(_needs_within_reach(problem))


def _arrivals(needs: dict[int, list[_Need]]) -> tuple[list[int], int]:
    order: list[int] = []
    done = 0
    waiting = sorted(needs, reverse=True)
    while True:
        left = []
        for owner in waiting:
            if all(any(bits & ~done == 0 for _, bits in need.ways) for need in needs[owner]):
                order.append(owner)
                if owner != TARGETS:
                    done |= 1 << owner
            else:
                left.append(owner)
        if len(left) == len(waiting):
            return order, done
        waiting = left[::-1]


def _forced_sets(needs: dict[int, list[_Need]], order: list[int], own: list[int]) -> dict[int, int]:
    """forced(n) for every node of the order: the largest solution, reached from above."""
    everything = -1
    forced = dict.fromkeys(order, everything)
    changed = True
    while changed:
        changed = False
        for owner in order:
            bits = own[owner] if owner != TARGETS else 0
            for need in needs[owner]:
                common = everything
                for _, nodes in need.ways:
                    total = 0
                    for node in members(nodes):
                        total |= forced[node]
                    common &= total
                    if not common:
                        break
                bits |= common
            if bits != forced[owner]:
                forced[owner] = bits
                changed = True
    return forced


def reduce(problem: AccessProblem) -> Reduction | None:
    """The choices that remain for the targets, or None when the targets cannot be met at all."""
    needs = _needs_within_reach(problem)
    order, reachable = _arrivals(needs)
    if TARGETS not in order:
        return None
    size = len(problem.nodes)
    weights = tuple(node.cost for node in problem.nodes) + problem.charge_costs
    own = [1 << number | sum(1 << size + charge for charge in node.charges)
           for number, node in enumerate(problem.nodes)]
    for owner in order:
        for need in needs[owner]:
            need.ways = [way for way in need.ways if way[1] & ~reachable == 0]
    forced = _forced_sets(needs, order, own)
    settled: dict[int, tuple[tuple[int, int, int], ...]] = {}
    open_needs: list[tuple[int, int, list[tuple[int, int, int]]]] = []
    wanted = [TARGETS]
    seen = {TARGETS}
    while wanted:
        owner = wanted.pop()
        itself = 0 if owner == TARGETS else 1 << owner
        fixed = []
        for need in needs[owner]:
            ways = []
            for number, nodes in need.ways:
                total = 0
                for node in members(nodes):
                    total |= forced[node]
                if total & itself:
                    continue
                ways.append((number, nodes, total))
                for node in members(nodes):
                    if node not in seen:
                        seen.add(node)
                        wanted.append(node)
            if len(ways) == 1:
                fixed.append((need.number, ways[0][0], ways[0][1]))
            else:
                open_needs.append((owner, need.number, ways))
        settled[owner] = tuple(fixed)
    open_needs.sort(key=lambda entry: entry[:2])
    raised_by: dict[int, int] = {}
    for position, (owner, _, _) in enumerate(open_needs):
        raised_by[owner] = raised_by.get(owner, 0) | 1 << position
    owners = sum(1 << owner for owner in raised_by if owner != TARGETS)

    def raised(bits: int) -> int:
        total = 0
        for node in members(bits & owners):
            total |= raised_by[node]
        return total

    choices = tuple(
        Choice(owner, number, tuple(Way(way, nodes, total, raised(total)) for way, nodes, total in ways))
        for owner, number, ways in open_needs
    )
    start = forced[TARGETS]
    return Reduction(start, raised(start) | raised_by.get(TARGETS, 0), choices, settled, weights)
