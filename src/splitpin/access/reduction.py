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

from collections.abc import Collection, Iterator
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
        total = 0
        while bits:
            lowest = bits & -bits
            total += self.weights[lowest.bit_length() - 1]
            bits ^= lowest
        return total


def members(bits: int) -> Iterator[int]:
    """The positions of the set bits, rising."""
    while bits:
        lowest = bits & -bits
        yield lowest.bit_length() - 1
        bits ^= lowest


_EVERYTHING = -1
"""All bits: what a node forces as long as no way of opening it is known."""

_Ways = list[tuple[int, tuple[int, ...], int]]  # (alternative, its nodes, the same as bits)
_Needs = dict[int, list[tuple[int, _Ways]]]  # owner -> (need, its ways)


def _needs_within_reach(problem: AccessProblem, barred: Collection[tuple[int, int, int]]) -> _Needs:
    """The needs of the targets and of every node some chain of alternatives leads to."""
    found: _Needs = {}
    waiting = [TARGETS]
    while waiting:
        owner = waiting.pop()
        if owner in found:
            continue
        needs = found[owner] = []
        for number, need in enumerate(problem.targets if owner == TARGETS else problem.nodes[owner].needs):
            ways: _Ways = []
            for alternative, nodes in enumerate(need):
                if (owner, number, alternative) in barred:
                    continue
                bits = 0
                for node in nodes:
                    bits |= 1 << node
                    if node not in found:
                        waiting.append(node)
                ways.append((alternative, tuple(nodes), bits))
            needs.append((number, ways))
    return found


def openable(problem: AccessProblem) -> tuple[bool, int]:
    """Whether some order arrives at the targets, and the bits of the nodes within their reach it arrives at.

    Work grows with the total size of the alternatives, times the longest run of needs met against the grain of the
    walk from the targets down (a few passes on problems of the trade).
    """
    order, reachable = _arrivals(_needs_within_reach(problem, ()))
    return TARGETS in order, reachable


def always_before(problem: AccessProblem) -> tuple[int, ...]:
    """For each node the bits of itself and of the nodes that come before it in every opening that holds it.

    0 for a node that no way leads to from the targets, or that no order arrives at. Work as for `reduce`.
    """
    needs = _needs_within_reach(problem, ())
    order, reachable = _arrivals(needs)
    for owner in order:
        needs[owner] = [(number, [way for way in ways if not way[2] & ~reachable]) for number, ways in needs[owner]]
    forced = _forced_sets(needs, order, [1 << number for number in range(len(problem.nodes))])
    return tuple(forced.get(number, 0) for number in range(len(problem.nodes)))


def _arrivals(needs: _Needs) -> tuple[list[int], int]:
    """The owners some order arrives at, in such an order, and the same as bits."""
    order: list[int] = []
    done = 0
    waiting = [*needs][::-1]
    while True:
        left = []
        for owner in waiting:
            for _, ways in needs[owner]:
                if not any(bits & ~done == 0 for _, _, bits in ways):
                    left.append(owner)
                    break
            else:
                order.append(owner)
                if owner != TARGETS:
                    done |= 1 << owner
        if len(left) == len(waiting):
            return order, done
        waiting = left


def _forced_sets(needs: _Needs, order: list[int], own: list[int]) -> dict[int, int]:
    """What each owner of the order forces: the largest solution, reached from above.

    Owners that come before all that name them are final after one pass; only circles take more.
    """
    forced = dict.fromkeys(order, _EVERYTHING)
    early = False  # whether a set was read before its own turn
    changed = True
    while changed:
        changed = False
        for owner in order:
            bits = own[owner] if owner != TARGETS else 0
            for _, ways in needs[owner]:
                common = _EVERYTHING
                for _, nodes, _ in ways:
                    total = 0
                    for node in nodes:
                        total |= forced[node]
                    early = early or total == _EVERYTHING
                    common &= total
                bits |= common
            if bits != forced[owner]:
                forced[owner] = bits
                changed = early
    return forced


def reduce(problem: AccessProblem, barred: Collection[tuple[int, int, int]] = ()) -> Reduction | None:
    """The choices that remain for the targets, or None when the targets cannot be met at all.

    barred: (node or -1, need, alternative) that are not to be used.
    """
    needs = _needs_within_reach(problem, barred)
    order, reachable = _arrivals(needs)
    if TARGETS not in order:
        return None
    for owner in order:
        needs[owner] = [(number, [way for way in ways if not way[2] & ~reachable]) for number, ways in needs[owner]]
    size = len(problem.nodes)
    own = []
    for number, node in enumerate(problem.nodes):
        bits = 1 << number
        for charge in node.charges:
            bits |= 1 << size + charge
        own.append(bits)
    forced = _forced_sets(needs, order, own)
    settled: dict[int, tuple[tuple[int, int, int], ...]] = {}
    left: list[tuple[int, int, list[tuple[int, int, int]]]] = []
    waiting = [TARGETS]
    while waiting:
        owner = waiting.pop()
        if owner in settled:
            continue
        itself = 0 if owner == TARGETS else 1 << owner
        fixed = []
        for number, ways in needs[owner]:
            open_ways = []
            for alternative, nodes, bits in ways:
                total = 0
                for other in nodes:
                    total |= forced[other]
                if not total & itself:
                    open_ways.append((alternative, bits, total))
                    waiting += nodes
            if len(open_ways) == 1:
                fixed.append((number, open_ways[0][0], open_ways[0][1]))
            else:
                left.append((owner, number, open_ways))
        settled[owner] = tuple(fixed)
    left.sort(key=lambda entry: entry[:2])
    return _numbered(left, settled, forced[TARGETS], tuple(node.cost for node in problem.nodes) + problem.charge_costs)


def _numbered(
    left: list[tuple[int, int, list[tuple[int, int, int]]]],
    settled: dict[int, tuple[tuple[int, int, int], ...]],
    forced: int,
    weights: tuple[int, ...],
) -> Reduction:
    """The reduction, with the choices numbered and, for each way, the numbers of those it brings up."""
    raised_by: dict[int, int] = {}
    for position, (owner, _, _) in enumerate(left):
        raised_by[owner] = raised_by.get(owner, 0) | 1 << position
    owners = sum(1 << owner for owner in raised_by if owner != TARGETS)

    def raised(bits: int) -> int:
        total = 0
        for node in members(bits & owners):
            total |= raised_by[node]
        return total

    choices = tuple(
        Choice(owner, number, tuple(Way(way, nodes, total, raised(total)) for way, nodes, total in ways))
        for owner, number, ways in left
    )
    return Reduction(forced, raised(forced) | raised_by.get(TARGETS, 0), choices, settled, weights)
