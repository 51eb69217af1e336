"""Published sequencing cases with known answers.

Sequential ordering: TSPLIB instances and their proved optima as listed in `sop/index.csv` of the reference folder
(sources there). Ten-part disassembly: Kongar and Gupta 2005, data and answers as printed in Choi, "Disassembly
Sequencing using Artificial Bee Colony Algorithm", tables I to X.
"""

import csv
import json
from pathlib import Path

import pytest
from tests.benchmarks.sop import read_sop

from splitpin.ordering.best import best_order, lower_bound
from splitpin.ordering.check import check_order
from splitpin.ordering.problem import PairwiseProblem
from splitpin.ordering.result import Status

PROVED_HERE = ("ESC07", "ESC11", "ESC12", "ESC25", "br17.10", "br17.12", "rbg109a", "ry48p.4")


@pytest.mark.parametrize("name", PROVED_HERE)
def test_published_optimum_of_a_sequential_ordering_instance_is_proved(name: str, reference: Path) -> None:
    with (reference / "data/sop/index.csv").open(encoding="utf-8", newline="") as lines:
        published = {row["name"]: row for row in csv.DictReader(lines)}[name]
    assert published["proven_in_the_list"] == "yes"
    problem = read_sop((reference / f"data/sop/{name}.sop").read_text(encoding="utf-8"))
    assert len(problem.seconds) + 1 == int(published["nodes_in_file"])
    result = best_order(problem)
    assert (result.status, result.elapsed_s) == (Status.PROVED, int(published["best_known_upper"]))
    seen = check_order(problem, result.order)
    assert (seen.legal, seen.elapsed_s) == (True, result.elapsed_s)
    assert lower_bound(problem) <= result.elapsed_s


class TenParts:
    """The problem with one operation more: the end, whose change-over is the time of the last part."""

    def __init__(self, folder: Path) -> None:
        data = json.loads((folder / "data/disassembly/kongar_gupta_10.json").read_text(encoding="utf-8"))
        self.parts = data["components"]
        self.names = sorted(self.parts)
        before = {"D": "H", "G": "H", "E": "G", "F": "G"}
        size = len(self.names)
        self.after = [
            tuple((self.names.index(other), 0) for other in self._before(name, before)) for name in self.names
        ] + [tuple((index, 0) for index in range(size))]
        self.change = [[self._change(a, b) for b in self.names] + [self.parts[a]["time"]] for a in self.names]
        self.change.append([None] * (size + 1))

    @staticmethod
    def _before(name: str, before: dict[str, str]) -> list[str]:
        return ([] if name in "BC" else ["B", "C"]) + ([before[name]] if name in before else [])

    def _change(self, a: str, b: str) -> int | None:
        first, second = self.parts[a], self.parts[b]
        if first["demand"] == second["demand"] == 2 and first["material"] == second["material"]:
            return 0
        one, other = first["direction"], second["direction"]
        turn = 0 if one == other else 2 if one[1] == other[1] else 1
        return first["time"] + turn + (first["method"] != second["method"])

    def problem(self, change: list[list[int | None]]) -> PairwiseProblem:
        size = len(self.names) + 1
        return PairwiseProblem(
            seconds=(0,) * size,
            after=tuple(self.after),
            change_s=tuple(tuple(row) for row in change),
            start_change_s=(0,) * size,
        )

    def order(self, letters: str) -> list[int]:
        return [*(self.names.index(letter) for letter in letters), len(self.names)]


def test_ten_parts_cost_29_at_best_and_44_at_worst(reference: Path) -> None:
    case = TenParts(reference)
    best = best_order(case.problem(case.change))
    assert (best.status, best.elapsed_s) == (Status.PROVED, 29)
    most = 100
    turned = [[None if entry is None else most - entry for entry in row] for row in case.change]
    worst = best_order(case.problem(turned))
    assert (worst.status, most * len(case.names) - worst.elapsed_s) == (Status.PROVED, 44)


@pytest.mark.parametrize(("letters", "cost"), [("BCAIHGJDFE", 36), ("BCAIHGDJFE", 33), ("BCAHDGJIEF", 29)])
def test_printed_orders_of_the_ten_parts_cost_what_is_printed(letters: str, cost: int, reference: Path) -> None:
    case = TenParts(reference)
    assert check_order(case.problem(case.change), case.order(letters)).elapsed_s == cost
