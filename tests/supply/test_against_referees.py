"""Three hundred random rounds against a graph library's minimum cut and a solver of mixed-integer programmes."""

import random

import pytest
from tests.supply.made import a_round

from splitpin.supply import best_load
from splitpin.supply.check import faults_of
from splitpin.supply.result import SCALE

pytest.importorskip("networkx", reason="the referee of cuts")
pytest.importorskip("highspy", reason="the referee of limited loads")

from tests.supply.referees import least_by_cut, least_by_programme

SEEDS = range(300)


def test_without_limits_no_cut_is_less() -> None:
    for seed in SEEDS:
        problem = a_round(random.Random(seed), jobs=4, faults=3, items=10, stock=3)
        load = best_load(problem)
        assert load.proved and load.cuts == 1 and faults_of(problem, load) == [], seed
        assert load.cost / SCALE == pytest.approx(least_by_cut(problem), abs=1e-3), seed


def test_within_limits_no_load_is_better() -> None:
    binding = 0
    for seed in SEEDS:
        problem = a_round(random.Random(seed), jobs=4, faults=3, items=10, stock=3, limited=True)
        load = best_load(problem)
        assert load.proved and faults_of(problem, load) == [], seed
        assert load.cost / SCALE == pytest.approx(least_by_programme(problem), abs=1e-3), seed
        binding += load.cuts > 1
    assert binding > 60  # the limits did limit
