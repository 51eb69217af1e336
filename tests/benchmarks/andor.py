"""Least sets of tasks of AND/OR instances: one line per target.

Two kinds of file are read. A precedence instance has `n`, `task_time`, `and_pred` ([a, b]: a before b) and `or_pred`
({b: [a, ...]}: one of them before b); every task is a target unless --target names one. A hypergraph has `root`,
`node_cost` and `hyperarcs` ({parent, children, cost}: the parent is made from its children, one arc is enough); the
target is the root unless --target names another subassembly.

Lines: name, target, cost, tasks (in an order that can be worked), proved, seconds (of the search alone).
"""

import argparse
import json
import time
from collections.abc import Iterator
from dataclasses import dataclass
from graphlib import TopologicalSorter
from pathlib import Path
from typing import Any

from splitpin.access.problem import AccessProblem, Node
from splitpin.access.result import Opening
from splitpin.access.search import least_opening


@dataclass(frozen=True)
class Instance:
    """A file as nodes; labels: what the file calls each node, None for one that stands for a hyperarc."""

    name: str
    nodes: tuple[Node, ...]
    labels: tuple[int | str | None, ...]
    targets: tuple[int | str, ...]

    def problem(self, target: int | str) -> AccessProblem:
        wanted = frozenset({self.labels.index(target)})
        return AccessProblem(self.nodes, targets=((wanted,),))

    def tasks(self, opening: Opening) -> list[int | str]:
        """What the file calls the nodes of the opening, earlier before later, lower numbers first."""
        before: dict[int, set[int]] = {node: set() for node in opening.nodes}
        for earlier, later in opening.before:
            before[later].add(earlier)
        sorter = TopologicalSorter(before)
        sorter.prepare()
        order: list[int] = []
        ready: set[int] = set()
        while sorter.is_active():
            ready |= set(sorter.get_ready())
            order.append(min(ready))
            ready.remove(order[-1])
            sorter.done(order[-1])
        return [label for label in (self.labels[node] for node in order) if label is not None]


def read_instance(path: Path) -> Instance:
    """The instance a JSON file describes."""
    content = json.loads(path.read_text(encoding="utf-8"))
    return _hypergraph(content) if "hyperarcs" in content else _precedence(content)


def _precedence(content: dict[str, Any]) -> Instance:
    tasks = range(1, content["n"] + 1)
    needs: dict[int, list[tuple[frozenset[int], ...]]] = {task: [] for task in tasks}
    for earlier, later in content["and_pred"]:
        needs[later].append((frozenset({earlier - 1}),))
    for later, some in content["or_pred"].items():
        needs[int(later)].append(tuple(frozenset({earlier - 1}) for earlier in some))
    nodes = tuple(Node(content["task_time"][str(task)], tuple(needs[task])) for task in tasks)
    return Instance(content["name"], nodes, tuple(tasks), tuple(tasks))


def _hypergraph(content: dict[str, Any]) -> Instance:
    names = list(content["node_cost"])
    arcs = content["hyperarcs"]
    nodes = []
    for name in names:
        ways = tuple(frozenset({len(names) + at}) for at, arc in enumerate(arcs) if arc["parent"] == name)
        leaf = name in content["leaves"]
        nodes.append(Node(content["node_cost"][name], () if leaf else (ways,)))
    for arc in arcs:
        nodes.append(Node(arc["cost"], tuple((frozenset({names.index(child)}),) for child in arc["children"])))
    return Instance(content["name"], tuple(nodes), (*names, *(None for _ in arcs)), (content["root"],))


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE")
    parser.add_argument("--target", help="only this task or subassembly")


def lines(arguments: argparse.Namespace) -> Iterator[dict[str, Any]]:
    for path in arguments.files:
        instance = read_instance(path)
        targets: tuple[int | str, ...] = instance.targets
        if arguments.target is not None:
            targets = tuple(label for label in instance.labels if label is not None and str(label) == arguments.target)
            if not targets:
                raise SystemExit(f"{path}: no task or subassembly is called {arguments.target}")
        for target in targets:
            problem = instance.problem(target)
            start = time.perf_counter()
            answer = least_opening(problem)
            seconds = time.perf_counter() - start
            yield {
                "name": instance.name,
                "target": target,
                "cost": None if answer.opening is None else answer.opening.cost,
                "tasks": None if answer.opening is None else instance.tasks(answer.opening),
                "proved": answer.status != "bounded",
                "seconds": round(seconds, 6),
            }
