"""How the time to find the best load grows with the round.

    python tests/benchmarks/rounds.py [--seeds K] [--seconds N] [jobs ...]

Made rounds: three suspects a job, ten part numbers for each job, one to six of them needed by a suspect, with limits of
mass and volume that hold about half of what would be carried without. One line per size: jobs, part numbers, median and
worst seconds of the processor, proved, worst gap, and a bar (one sign for each doubling from 1 ms).
"""

import argparse
import math
import random
import statistics
import time
from dataclasses import dataclass

from splitpin.supply import Fault, Item, Job, Load, LoadProblem, best_load

SUSPECTS = 3


@dataclass(frozen=True)
class Run:
    """One round loaded: how long it took, and what came out."""

    seconds: float
    load: Load


def made(seed: int, jobs: int, *, limited: bool = True) -> LoadProblem:
    """Money in pence, mass in grams, volume in millilitres."""
    rng = random.Random(seed)
    parts = 10 * jobs
    items = tuple(
        Item(
            cost=rng.randint(20, 900),
            mass=rng.randint(50, 8000),
            volume=rng.randint(100, 20000),
            aboard=int(rng.random() < 0.15),
            stock=rng.randint(0, 4),
        )
        for _ in range(parts)
    )
    visits = tuple(
        Job(
            rng.randint(4000, 12000),
            tuple(
                Fault(
                    rng.randint(1, 10),
                    tuple(
                        (item, rng.choice((1, 1, 1, 2))) for item in sorted(rng.sample(range(parts), rng.randint(1, 6)))
                    ),
                )
                for _ in range(SUSPECTS)
            ),
        )
        for _ in range(jobs)
    )
    return LoadProblem(items, visits, 5_000 * jobs if limited else None, 12_500 * jobs if limited else None)


def solve(problem: LoadProblem, limit_s: float) -> Run:
    """The best load within the time."""
    begun = time.process_time()
    load = best_load(problem, lambda: time.process_time() - begun > limit_s)
    return Run(time.process_time() - begun, load)


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--seeds", type=int, default=7)
    parser.add_argument("--seconds", type=float, default=5.0)
    parser.add_argument("--free", action="store_true", help="without limits")
    parser.add_argument("jobs", type=int, nargs="*", default=[5, 10, 20, 40, 80])
    arguments = parser.parse_args()
    for jobs in arguments.jobs:
        runs = [
            solve(made(seed, jobs, limited=not arguments.free), arguments.seconds) for seed in range(arguments.seeds)
        ]
        median = statistics.median(run.seconds for run in runs)
        worst = max(run.seconds for run in runs)
        proved = sum(run.load.proved for run in runs)
        gap = max(run.load.gap for run in runs)
        bar = "#" * max(1, round(math.log2(max(median, 0.002) / 0.001)))
        print(f"{jobs:4} {10 * jobs:5} {median:8.3f} {worst:8.3f} {proved}/{len(runs)} {gap:8.4%} {bar}")


if __name__ == "__main__":
    main()
