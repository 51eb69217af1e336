"""Appliance-like instances, made here from a seed and solved."""

import argparse
import time
from collections.abc import Iterator
from typing import Any

from appliances import appliance

from splitpin.ordering.best import best_order
from splitpin.ordering.result import Status


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--components", type=int, required=True)
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--waits", type=int, default=0, help="how many waits run by themselves (default 0)")
    parser.add_argument("--seconds", type=float, default=60.0, help="time limit")


def lines(arguments: argparse.Namespace) -> Iterator[dict[str, Any]]:
    problem = appliance(arguments.components, arguments.seed, waits=arguments.waits)
    begun = time.perf_counter()
    deadline = begun + arguments.seconds
    result = best_order(problem, stop=lambda: time.perf_counter() > deadline)
    yield {
        "name": f"plant-{arguments.components}-{arguments.seed}",
        "components": arguments.components,
        "operations": len(problem.operations),
        "waits": arguments.waits,
        "cost": result.elapsed_s,
        "bound": result.bound_s,
        "proved": result.status is Status.PROVED,
        "explored": result.explored,
        "seconds": round(time.perf_counter() - begun, 4),
    }
