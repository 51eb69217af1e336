"""The least cost against a mixed-integer programme of the same problem (see referee.py), worked by HiGHS."""

import random

import pytest
from tests.access.brute_force import small_problem
from tests.benchmarks.andor_made import made

from splitpin.access.check import check_opening
from splitpin.access.search import least_opening

pytest.importorskip("highspy", reason="the referee is worked by HiGHS")

from tests.access.referee import least_cost


@pytest.mark.parametrize("tasks", [60, 73, 133])
@pytest.mark.parametrize("circles", [False, True], ids=["without circles", "with circles"])
def test_targets_of_large_instances_are_least(tasks: int, circles: bool) -> None:
    for seed in range(2):
        instance = made(tasks, seed, circles=circles)
        for target in random.Random(seed).sample(instance.targets, 2):
            problem = instance.problem(target)
            answer = least_opening(problem)
            assert answer.status == "proved"
            assert answer.opening is not None
            assert check_opening(problem, answer.opening) == []
            assert answer.opening.cost == answer.bound == least_cost(problem)


def test_several_targets_with_charges_and_circles_are_least() -> None:
    impossible = 0
    for seed in range(150):
        problem = small_problem(random.Random(seed), circular=True, charges=4, most=16, unmeetable=0.02)
        answer = least_opening(problem)
        assert (None if answer.opening is None else answer.opening.cost) == least_cost(problem)
        impossible += answer.opening is None
    assert 5 < impossible < 75  # both kinds of answer were met
