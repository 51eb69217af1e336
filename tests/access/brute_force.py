"""The definition, tried out in full: every way of choosing, and which of them leave an order."""

import random
from graphlib import CycleError, TopologicalSorter

from splitpin.access.problem import AccessProblem, Node
from splitpin.access.result import TARGETS, Opening


def every_opening(problem: AccessProblem) -> list[Opening]:
    """All acyclic ways of choosing, by cost and then by their choices."""
    found: list[Opening] = []
    choice: dict[tuple[int, int], int] = {}

    def needs_of(owner: int) -> tuple[tuple[frozenset[int], ...], ...]:
        return problem.targets if owner == TARGETS else problem.nodes[owner].needs

    def choose(waiting: list[tuple[int, int]], nodes: frozenset[int]) -> None:
        if not waiting:
            opening = _opening(problem, {key: needs_of(key[0])[key[1]][way] for key, way in choice.items()}, choice)
            if opening is not None:
                found.append(opening)
            return
        (owner, number), rest = waiting[0], waiting[1:]
        for way, alternative in enumerate(needs_of(owner)[number]):
            choice[owner, number] = way
            fresh = sorted(alternative - nodes)
            choose(rest + [(node, at) for node in fresh for at in range(len(needs_of(node)))], nodes | alternative)
            del choice[owner, number]

    choose([(TARGETS, number) for number in range(len(problem.targets))], frozenset())
    return sorted(found, key=lambda opening: (opening.cost, opening.choices))


def _opening(
    problem: AccessProblem, chosen: dict[tuple[int, int], frozenset[int]], choice: dict[tuple[int, int], int]
) -> Opening | None:
    nodes = frozenset().union(*chosen.values())
    before = {(node, owner) for (owner, _), some in chosen.items() if owner != TARGETS for node in some}
    graph: dict[int, set[int]] = {}
    for earlier, later in before:
        graph.setdefault(later, set()).add(earlier)
    try:
        TopologicalSorter(graph).prepare()
    except CycleError:
        return None
    charges = frozenset(charge for node in nodes for charge in problem.nodes[node].charges)
    cost = sum(problem.nodes[node].cost for node in nodes) + sum(problem.charge_costs[c] for c in charges)
    choices = tuple(sorted((owner, number, way) for (owner, number), way in choice.items()))
    return Opening(nodes, choices, tuple(sorted(before)), charges, cost)


def small_problem(
    rng: random.Random, *, circular: bool, charges: int, most: int = 7, unmeetable: float = 0.03
) -> AccessProblem:
    """A random problem of two to `most` nodes, some without cost, some needs empty or unmeetable."""
    size = rng.randint(2, most)
    nodes = []
    for number in range(size):
        pool = [node for node in range(size) if node != number or rng.random() < 0.1] if circular else [*range(number)]
        needs: list[tuple[frozenset[int], ...]] = []
        for _ in range(rng.choice([0, 1, 1, 2])):
            if rng.random() < unmeetable:
                needs.append(())
                continue
            needs.append(tuple(_some(rng, pool) for _ in range(rng.choice([1, 2, 3]))))
        cost = 0 if rng.random() < 0.3 else rng.randint(1, 9)
        brings = frozenset(charge for charge in range(charges) if rng.random() < 0.25)
        nodes.append(Node(cost, tuple(needs), brings))
    targets = tuple(
        tuple(frozenset(rng.sample(range(size), rng.choice([1, 1, 2]))) for _ in range(rng.choice([1, 1, 2])))
        for _ in range(rng.choice([1, 2]))
    )
    return AccessProblem(tuple(nodes), tuple(rng.randint(0, 6) for _ in range(charges)), targets)


def _some(rng: random.Random, pool: list[int]) -> frozenset[int]:
    if rng.random() < 0.1:
        return frozenset()
    return frozenset(rng.sample(pool, min(len(pool), rng.choice([1, 1, 2]))))
