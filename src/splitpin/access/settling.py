"""From a finished set, or from choices made, to an opening with its order and its charges.

A set is finished when every choice it brings up is met by ways inside the set, in some order. Taking for each choice
the first way that is ready when its turn comes leaves no circle; what no chosen alternative asks for is left out.
"""

from splitpin.access.problem import AccessProblem
from splitpin.access.reduction import Reduction, members
from splitpin.access.result import TARGETS, Opening


def met_inside(reduction: Reduction, held: int) -> dict[int, int]:
    """For each choice that some order meets without leaving the set: the way it takes (position among its ways)."""
    met = 0
    taken: dict[int, int] = {}
    waiting = list(range(len(reduction.choices)))
    while True:
        left = []
        for number in waiting:
            for position, way in enumerate(reduction.choices[number].ways):
                if not way.forces & ~held and not way.raises & ~met:
                    met |= 1 << number
                    taken[number] = position
                    break
            else:
                left.append(number)
        if len(left) == len(waiting):
            return taken
        waiting = left


def settle(problem: AccessProblem, reduction: Reduction, held: int) -> Opening:
    """One acyclic opening inside a finished set, without what nothing asks for."""
    return opening_of(problem, reduction, met_inside(reduction, held))


def opening_of(problem: AccessProblem, reduction: Reduction, taken: dict[int, int]) -> Opening:
    """The opening in which each choice takes the way given for it (position among its ways)."""
    by_owner: dict[int, list[tuple[int, int, int]]] = {}
    for number, position in taken.items():
        choice = reduction.choices[number]
        way = choice.ways[position]
        by_owner.setdefault(choice.owner, []).append((choice.need, way.number, way.nodes))
    chosen: list[tuple[int, int, int]] = []
    before: set[tuple[int, int]] = set()
    nodes: set[int] = set()
    waiting = [TARGETS]
    while waiting:
        owner = waiting.pop()
        for need, alternative, bits in (*reduction.settled[owner], *by_owner.get(owner, ())):
            chosen.append((owner, need, alternative))
            for node in members(bits):
                if owner != TARGETS:
                    before.add((node, owner))
                if node not in nodes:
                    nodes.add(node)
                    waiting.append(node)
    charges = frozenset(charge for node in nodes for charge in problem.nodes[node].charges)
    cost = sum(problem.nodes[node].cost for node in nodes) + sum(problem.charge_costs[c] for c in charges)
    return Opening(frozenset(nodes), tuple(sorted(chosen)), tuple(sorted(before)), charges, cost)
