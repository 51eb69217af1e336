"""How the time to prove a best order grows with the operations, on appliance-like instances.

    python tests/benchmarks/growth.py [--seeds K] [--seconds N] [--waits W] [--tiers] [components ...]

prints one line per size: operations, median and worst seconds of the processor, proved, worst gap, and a bar whose
length is the logarithm of the median (one sign for each doubling from 1 ms). With --tiers the hands-on seconds and the
changes are proved as well; without, the elapsed time alone.
"""

import argparse
import math
import statistics
import time
from dataclasses import dataclass

from splitpin.ordering.best import best_order
from splitpin.ordering.check import check_order
from splitpin.ordering.problem import OrderingProblem
from splitpin.ordering.result import OrderResult

try:
    from appliances import appliance
except ModuleNotFoundError:  # as a module of the tests, not as a script
    from tests.benchmarks.appliances import appliance


@dataclass(frozen=True)
class Run:
    """One instance solved: its size, how long it took, and what came out."""

    operations: int
    seconds: float
    result: OrderResult

    @property
    def gap(self) -> float:
        """How much of the elapsed time the bound leaves open."""
        return (self.result.elapsed_s - self.result.bound_s) / self.result.elapsed_s


def solve(problem: OrderingProblem, limit_s: float, *, elapsed_only: bool) -> Run:
    """The best order within the limit; the check must agree with every second."""
    begun = time.process_time()
    result = best_order(problem, stop=lambda: time.process_time() - begun > limit_s, elapsed_only=elapsed_only)
    seconds = time.process_time() - begun
    seen = check_order(problem, result.order)
    assert seen.legal
    assert (seen.starts_s, seen.elapsed_s) == (result.starts_s, result.elapsed_s)
    assert (seen.hands_on_s, seen.changes) == (result.hands_on_s, result.changes)
    return Run(len(problem.operations), seconds, result)


def runs(components: int, seeds: int, limit_s: float, waits: int = 0, *, elapsed_only: bool = True) -> list[Run]:
    return [
        solve(appliance(components, seed, waits=waits), limit_s, elapsed_only=elapsed_only) for seed in range(seeds)
    ]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("components", type=int, nargs="*", default=[6, 9, 12, 15, 18, 21, 24, 36])
    parser.add_argument("--seeds", type=int, default=9)
    parser.add_argument("--seconds", type=float, default=20.0)
    parser.add_argument("--waits", type=int, default=0)
    parser.add_argument("--tiers", action="store_true")
    arguments = parser.parse_args()
    print("components  operations  median s   worst s  proved  worst gap  growth")
    for components in arguments.components:
        done = runs(components, arguments.seeds, arguments.seconds, arguments.waits, elapsed_only=not arguments.tiers)
        median = statistics.median(run.seconds for run in done)
        proved = sum(run.gap == 0 for run in done)
        print(
            f"{components:10} {statistics.median_low(run.operations for run in done):11}"
            f" {median:9.4f} {max(run.seconds for run in done):9.3f} {proved:4}/{len(done)}"
            f" {max(run.gap for run in done):9.1%}   {'#' * max(1, round(math.log2(median / 0.001)))}",
            flush=True,
        )


if __name__ == "__main__":
    main()
