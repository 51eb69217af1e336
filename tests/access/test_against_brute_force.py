"""Small random problems against every way of choosing tried out."""

import random

import pytest
from tests.access.brute_force import every_opening, small_problem

from splitpin.access.causes import why_not
from splitpin.access.check import causes_hold, check_opening
from splitpin.access.listing import openings
from splitpin.access.problem import AccessProblem
from splitpin.access.reduction import always_before
from splitpin.access.search import least_opening


def _least_agrees(problem: AccessProblem) -> bool:
    """Whether the targets can be met; asserts that the least opening is one of the least of all."""
    every = every_opening(problem)
    answer = least_opening(problem)
    if not every:
        assert answer.status == "impossible"
        assert answer.opening is None
        assert answer.causes == why_not(problem)
        assert causes_hold(problem, answer.causes)
        return False
    assert answer.status == "proved"
    assert answer.opening is not None
    assert answer.opening.cost == answer.bound == every[0].cost
    assert answer.gap == 0
    assert answer.opening in every
    assert check_opening(problem, answer.opening) == []
    assert why_not(problem) == ()
    return True


@pytest.mark.parametrize("circular", [False, True], ids=["without circles", "with circles"])
@pytest.mark.parametrize("charges", [0, 3], ids=["alternatives", "alternatives and fixed charges"])
def test_least_opening_is_the_least_of_all(circular: bool, charges: int) -> None:
    possible = sum(
        _least_agrees(small_problem(random.Random(seed), circular=circular, charges=charges, most=8))
        for seed in range(1_000)
    )
    assert 500 < possible < 1_000  # both kinds of answer were met


@pytest.mark.parametrize("circular", [False, True], ids=["without circles", "with circles"])
def test_openings_are_all_of_them_in_cost_order(circular: bool) -> None:
    listed = 0
    for seed in range(1_000):
        problem = small_problem(random.Random(seed), circular=circular, charges=2, most=7)
        every = every_opening(problem)
        found = list(openings(problem))
        assert [opening.cost for opening in found] == [opening.cost for opening in every]
        assert sorted(found, key=lambda opening: (opening.cost, opening.choices)) == every
        for opening in found:
            assert check_opening(problem, opening) == []
        listed += len(found)
    assert listed > 5_000


@pytest.mark.parametrize("circular", [False, True], ids=["without circles", "with circles"])
def test_unwanted_sets_alone_are_left_out_and_the_rest_keeps_its_order(circular: bool) -> None:
    dropped = 0
    for seed in range(500):
        chance = random.Random(seed)
        problem = small_problem(chance, circular=circular, charges=2, most=7)
        nodes = chance.sample(range(len(problem.nodes)), min(2, len(problem.nodes)))
        unwanted = sum(1 << node for node in nodes)
        every = list(openings(problem))
        wanted = [opening for opening in every if not opening.nodes >= {*nodes}]
        assert list(openings(problem, unwanted=lambda held, bits=unwanted: not bits & ~held)) == wanted
        dropped += len(every) - len(wanted)
    assert dropped > 200


@pytest.mark.parametrize("circular", [False, True], ids=["without circles", "with circles"])
def test_what_is_always_before_a_node_is_before_it_in_every_opening(circular: bool) -> None:
    seen = 0
    for seed in range(500):
        problem = small_problem(random.Random(seed), circular=circular, charges=0, most=7)
        always = always_before(problem)
        for opening in every_opening(problem):
            for node in opening.nodes:
                before = {node}
                for _ in opening.nodes:
                    before |= {earlier for earlier, later in opening.before if later in before}
                claimed = {other for other in range(len(problem.nodes)) if always[node] >> other & 1}
                assert node in claimed and claimed <= before
                seen += len(claimed) - 1
    assert seen > 1_000
