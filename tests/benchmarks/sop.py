"""Sequential-ordering files: least path from the first node to the last.

The format is TSPLIB's: a full matrix; entry -1 in row i, column j says that j comes before i; 1000000 is no arc.
"""

import argparse
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from splitpin.ordering.best import best_order
from splitpin.ordering.problem import PairwiseProblem
from splitpin.ordering.result import Status

NO_ARC = 1_000_000


def read_sop(text: str) -> PairwiseProblem:
    """The problem of a file: operations are the nodes after the first, which is the start."""
    numbers = text.split("EDGE_WEIGHT_SECTION", 1)[1].split("EOF", 1)[0].split()
    size = int(numbers[0])
    entries = [int(number) for number in numbers[1 : 1 + size * size]]
    if len(entries) != size * size:
        raise ValueError(f"the matrix has {len(entries)} entries, not {size} x {size}")
    rows = [entries[size * row : size * (row + 1)] for row in range(size)]
    arcs = [
        [None if entry < 0 or entry >= NO_ARC or row == column else entry for column, entry in enumerate(line)]
        for row, line in enumerate(rows)
    ]
    return PairwiseProblem(
        seconds=(0,) * (size - 1),
        after=tuple(
            tuple((column - 1, 0) for column in range(1, size) if rows[row][column] == -1) for row in range(1, size)
        ),
        change_s=tuple(tuple(arcs[row][1:]) for row in range(1, size)),
        start_change_s=tuple(arcs[0][1:]),
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE")
    parser.add_argument("--seconds", type=float, default=60.0, help="time limit for each file")


def lines(arguments: argparse.Namespace) -> Iterator[dict[str, Any]]:
    for path in arguments.files:
        problem = read_sop(path.read_text(encoding="utf-8"))
        begun = time.perf_counter()
        deadline = begun + arguments.seconds
        result = best_order(problem, stop=lambda deadline=deadline: time.perf_counter() > deadline)
        yield {
            "name": path.stem,
            "nodes": len(problem.seconds) + 1,
            "cost": result.elapsed_s if result.order else None,
            "bound": result.bound_s,
            "proved": result.status is Status.PROVED,
            "seconds": round(time.perf_counter() - begun, 3),
        }
