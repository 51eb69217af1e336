"""Jobs that share stock all or nothing: by hand, and against every load and every case."""

import random

import pytest
from tests.supply.brute_force import least_cost
from tests.supply.made import a_round

from splitpin.supply import Fault, Item, Job, LoadProblem, best_load, shared_load
from splitpin.supply.check import expected_cost, faults_of, faults_of_shared, shared_cost
from splitpin.supply.result import SCALE

A, B = 0, 1


def test_a_job_that_cannot_be_finished_is_let_go_for_the_next() -> None:
    items = (Item(stock=1), Item(mass=5, stock=1), Item(mass=5, stock=1))
    jobs = (
        Job(10, (Fault(1, ((A, 1), (B, 1))),)),
        Job(10, (Fault(1, ((A, 1),)),)),
        Job(50, (Fault(1, ((2, 1),)),)),
    )
    problem = LoadProblem(items, jobs, mass=5)
    assert best_load(problem).counts == (0, 0, 1)
    found = shared_load(problem)
    assert found.load.counts == (1, 0, 1)
    assert found.let_go == ((0, 0),)
    assert (found.cost, found.gap) == (10 * SCALE, 0)
    assert found.chances.jobs == (0, 1, 1)


def test_stock_for_all_needs_no_sharing() -> None:
    problem = LoadProblem((Item(cost=1, stock=9),), (Job(10, (Fault(1, ((A, 1),)), Fault(1))),) * 3)
    found = shared_load(problem)
    assert found.load.counts == (3,)  # the third is needed in one case of eight: 10 / 8 is more than 1
    assert found.chances.every == 1
    assert found.let_go == ()


def test_the_floor_is_below_every_load_and_the_load_hardly_ever_above_the_best() -> None:
    best, proved = 0, 0
    for seed in range(100):
        problem = a_round(random.Random(seed), jobs=4, faults=3, items=4, limited=seed % 2 == 1)
        found = shared_load(problem)
        assert found.cost / SCALE == pytest.approx(expected_cost(problem, found.load.counts, all_or_nothing=True))
        assert found.cost / SCALE == pytest.approx(shared_cost(problem, found.load.counts))
        assert faults_of_shared(problem, found.load, found.cost, found.floor) == []
        assert faults_of_shared(problem, found.load, found.cost + SCALE // 100, found.floor) != []
        assert faults_of_shared(problem, found.load, found.cost, found.cost + 1) == ["the bound is above the cost"]
        least = least_cost(problem, all_or_nothing=True)
        assert found.floor / SCALE <= least + 1e-4
        assert found.cost / SCALE >= least - 1e-4
        best += found.cost / SCALE <= least + 1e-4
        proved += found.gap == 0
    assert best >= 90  # of these hundred rounds, with far less stock than jobs
    assert proved >= 70


def test_it_is_never_worse_than_the_cautious_load() -> None:
    for seed in range(100):
        problem = a_round(random.Random(seed), jobs=5, faults=3, items=5)
        cautious = best_load(problem)
        assert faults_of(problem, cautious) == []
        assert shared_load(problem).cost / SCALE <= expected_cost(problem, cautious.counts, all_or_nothing=True) + 1e-4
