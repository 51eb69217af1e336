"""The quick time is never above what the ordering finds, for an opening and for every set that it holds."""

import itertools

import pytest
from tests.planning.openings import does_twice
from tests.planning.random_visits import visit

from splitpin.access.listing import openings
from splitpin.access.result import Opening
from splitpin.ordering.best import best_order
from splitpin.planning.asked.expand import expand
from splitpin.planning.best.choose import candidate_of
from splitpin.planning.best.least import LeastElapsed
from splitpin.planning.opening.graph import Graph
from splitpin.planning.opening.needs import open_graph
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.habits import USUAL
from splitpin.planning.programme.strip import doings_of


def held(opening: Opening, graph: Graph) -> int:
    """The nodes and charges of an opening as bits, charges behind the nodes."""
    bits = [*opening.nodes, *(len(graph.nodes) + charge for charge in opening.charges)]
    return sum(1 << bit for bit in bits)


@pytest.mark.parametrize("block", range(4))
def test_no_opening_takes_less_than_the_least_of_any_part_of_it(block: int) -> None:
    compared = above_the_cost = 0
    for seed in range(block * 40, block * 40 + 40):
        subject = visit(seed)
        plant, wanted = Plant(subject), expand(subject).wanted
        graph = open_graph(plant, wanted)
        problem = graph.problem()
        least = LeastElapsed(graph, plant, problem, USUAL)
        some = [o for o in itertools.islice(openings(problem), 30) if not does_twice(o, graph)]
        for opening in some:
            doings = doings_of(opening, graph, plant)
            candidate = candidate_of(opening, doings, graph, plant, wanted)
            halves = candidate.strip, candidate.refit.programme
            if any(half.goes_round() for half in halves):
                continue
            elapsed = sum(best_order(half.problem(plant)).elapsed_s for half in halves)
            whole = held(opening, graph)
            assert all(least.of(whole & held(other, graph)) <= elapsed for other in some)
            compared += 1
            above_the_cost += least.of(whole) > opening.cost
    assert compared > 100 and above_the_cost > 30
