"""What the loading of a round must manage, with the time it may take. Run with --benchmark."""

import pytest
from tests.benchmarks.rounds import made, solve

pytestmark = pytest.mark.benchmark


def test_forty_jobs_with_three_suspects_and_four_hundred_parts_are_within_half_a_percent_after_five_seconds() -> None:
    for seed in range(7):
        run = solve(made(seed, 40), 4.5)
        assert run.load.gap <= 0.005
        assert run.seconds < 5


def test_without_limits_one_cut_is_proof() -> None:
    for seed in range(7):
        run = solve(made(seed, 40, limited=False), 5)
        assert run.load.proved and run.load.cuts == 1
        assert run.seconds < 1
