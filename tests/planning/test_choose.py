"""Choice and order are exact together: against every opening of small random visits, each ordered in full."""

import itertools

import pytest
from tests.planning.openings import does_twice
from tests.planning.random_visits import visit

from splitpin.access.listing import openings
from splitpin.ordering.best import best_order
from splitpin.ordering.check import check_order
from splitpin.ordering.problem import OrderingProblem
from splitpin.ordering.result import Status
from splitpin.planning.asked.expand import expand
from splitpin.planning.best.choose import Choice, candidate_of, choose
from splitpin.planning.opening.needs import open_graph
from splitpin.planning.opening.too_far import goes_too_far
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.strip import doings_of


def least_by_listing(problem: OrderingProblem) -> tuple[int, int]:
    """The least elapsed time, and the fewest hands-on seconds of the orders that take it: by every permutation where
    there are few, else by the ordering without a cut-off.
    """
    size = len(problem.operations)
    if size <= 6:
        orders = itertools.permutations(range(size))
        legal = [check_order(problem, order) for order in orders]
        return min((verdict.elapsed_s, verdict.hands_on_s) for verdict in legal if verdict.legal)
    best = best_order(problem)
    return best.elapsed_s, best.hands_on_s


@pytest.mark.parametrize("block", range(10))
def test_no_opening_of_a_random_visit_beats_the_choice(block: int) -> None:
    compared = 0
    for seed in range(block * 40, block * 40 + 40):
        subject = visit(seed)
        plant, wanted = Plant(subject), expand(subject).wanted
        graph = open_graph(plant, wanted)
        totals, clashed = [], False
        for opening in itertools.islice(openings(graph.problem()), 400):
            if does_twice(opening, graph) or (not clashed and goes_too_far(opening, graph)):
                continue
            doings = doings_of(opening, graph, plant)
            candidate = candidate_of(opening, doings, graph, plant, wanted)
            halves = [candidate.strip.problem(plant), candidate.refit.programme.problem(plant)]
            if any(best_order(half).status is Status.IMPOSSIBLE for half in halves):
                clashed = True
                continue
            strip, refit = map(least_by_listing, halves)
            totals.append((strip[0] + refit[0], strip[1] + refit[1]))
        choice = choose(graph, plant, wanted)
        if not totals:
            assert not isinstance(choice, Choice)
            continue
        assert isinstance(choice, Choice)
        assert (choice.elapsed_s, choice.hands_on_s) == min(totals), seed
        assert choice.gap_s == 0
        compared += 1
    assert compared >= 25


@pytest.mark.parametrize("polls", [0, 1, 3])
def test_a_stopped_choice_claims_no_more_than_is_so(polls: int) -> None:
    stopped = 0
    for seed in range(150):
        subject = visit(seed)
        plant, wanted = Plant(subject), expand(subject).wanted
        graph = open_graph(plant, wanted)
        best = choose(graph, plant, wanted)
        asked = itertools.count()
        found = choose(graph, plant, wanted, lambda asked=asked: next(asked) >= polls)
        if isinstance(best, Choice):
            assert isinstance(found, Choice)
            assert found.bound_s <= best.elapsed_s <= found.elapsed_s
            stopped += found.gap_s > 0
    assert stopped > 10
