"""AND/OR instances nobody here made, with answers found by other means.

Precedence instances of 10, 22 and 47 tasks: structures of Ren et al. 2017 (10) and Kalaycilar et al. 2016 (22, 47); the
least times were computed with two other solvers (a CP and a MIP solver), both agreeing, and stand in
andor_precedence_targets.csv. Hypergraphs of a four-part product (named after Homem de Mello) and of a pencil: least
tree costs 11 and 11 by full enumeration of their trees. Product values of Meacham, Uzsoy & Venkatadri 1999, Example 1:
net revenue 423.5, opening nodes 1, 5 and 6 and leaving 2 whole.
"""

import csv
import json
from pathlib import Path

import pytest
from tests.benchmarks.andor import read_instance

from splitpin.access.check import check_opening
from splitpin.access.listing import openings
from splitpin.access.problem import AccessProblem, Node
from splitpin.access.search import least_opening


@pytest.fixture
def folder(reference: Path) -> Path:
    return reference / "data" / "disassembly"


def test_every_published_target_is_exact(folder: Path) -> None:
    rows = list(csv.DictReader((folder / "andor_precedence_targets.csv").read_text(encoding="utf-8").splitlines()))
    instances = {path.stem: read_instance(path) for path in sorted(folder.glob("P*-OR.json"))}
    assert {"P10-OR", "P22-OR", "P47-OR"} <= set(instances)
    compared = 0
    for row in rows:
        if row["instance"] not in instances:
            continue
        instance, target = instances[row["instance"]], int(row["target_task"])
        problem = instance.problem(target)
        answer = least_opening(problem)
        assert answer.status == "proved"
        assert answer.opening is not None
        assert (row["instance"], target, answer.opening.cost) == (
            row["instance"],
            target,
            int(row["exact_min_total_time"]),
        )
        assert check_opening(problem, answer.opening) == []
        assert next(openings(problem)).cost == answer.opening.cost
        times = [problem.nodes[int(task) - 1].cost for task in instance.tasks(answer.opening)]
        assert sum(times) == answer.opening.cost
        compared += 1
    assert compared >= 79


def test_adding_up_branches_overstates_a_published_target(folder: Path) -> None:
    """P47, task 7: 139 when each branch is added up, 107 when the shared tasks are done once."""
    instance = read_instance(folder / "P47-OR.json")
    answer = least_opening(instance.problem(7)).opening
    assert answer is not None
    assert answer.cost == 107
    assert set(instance.tasks(answer)) == {1, 2, 4, 5, 32, 35, 6, 38, 42, 7}


def test_four_part_product_has_eight_trees(folder: Path) -> None:
    instance = read_instance(folder / "andor_deMello.json")
    costs = [opening.cost for opening in openings(instance.problem("node1"))]
    assert costs == [11, 11, 13, 13, 13, 13, 14, 14]


def test_pencil_has_two_trees(folder: Path) -> None:
    instance = read_instance(folder / "andor_pencil_assembly.json")
    costs = [opening.cost for opening in openings(instance.problem("cap_&_filter_&_body"))]
    assert costs == [11, 15]


def test_how_far_to_open_a_product_for_most_revenue(folder: Path) -> None:
    """Each node is sold whole or opened; what is given up against a high mark per leaf is the cost to make least.

    A leaf counts as sold at 1,000 above its worth, so that nothing has a negative cost, and a node's mark is the sum of
    the marks of its leaves. Values in halves, because the example has 24.5 and 423.5.
    """
    content = json.loads((folder / "meacham_1999_example1.json").read_text(encoding="utf-8"))
    children = {int(node): below for node, below in content["tree"].items()}
    margin = 1_000
    nodes: list[Node] = []
    opened: dict[int, int] = {}

    def worth(node: int) -> float:
        """What a leaf brings: under an OR node only what is worth taking out is taken."""
        units, revenue = content["units"].get(str(node), 1), content["r"][str(node)]
        taken_out = any(node in below and content["node_type"][str(top)] == "OR" for top, below in children.items())
        return units * max(revenue - content["c"].get(str(node), 0), 0) if taken_out else units * revenue

    def place(node: int) -> tuple[float, tuple[frozenset[int], ...]]:
        """The mark and the alternatives of one node of the tree."""
        if node not in children:
            nodes.append(Node(2 * margin))
            return worth(node) + margin, (frozenset({len(nodes) - 1}),)
        below = [place(child) for child in children[node]]
        mark = sum(child_mark for child_mark, _ in below)
        is_and = content["node_type"][str(node)] == "AND"
        price = content["c"][str(node)] if is_and else content["f"][str(node)]
        shift = 0 if is_and else 3  # an OR node's residue is sold for 3: the gain is part of its mark
        nodes.append(Node(round(2 * (price + shift)), tuple(ways for _, ways in below)))
        opened[node] = len(nodes) - 1
        mark += shift
        nodes.append(Node(round(2 * (mark - content["r"][str(node)]))))
        return mark, (frozenset({opened[node]}), frozenset({len(nodes) - 1}))

    mark, ways = place(1)
    answer = least_opening(AccessProblem(tuple(nodes), targets=(ways,))).opening
    assert answer is not None
    assert mark - answer.cost / 2 == content["published"]["net_revenue"] == 423.5
    assert sorted(node for node, number in opened.items() if number in answer.nodes) == [1, 5, 6]
