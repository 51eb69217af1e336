"""The least expected cost of a round from outside: a minimum cut by networkx, a mixed-integer programme by HiGHS.

Both are laid out case by case (every combination of the faults of all jobs), not by claims. In a case each job has what
it needs together with the jobs before it; a fault that the whole stock cannot cure within the limits takes nothing.
"""

from collections.abc import Iterator
from itertools import pairwise, product
from math import prod

import highspy
import networkx as nx
from tests.highs import exact_solver

from splitpin.supply import LoadProblem

Demand = dict[int, int]  # pieces of each item


def ends(problem: LoadProblem) -> Iterator[tuple[float, Demand | None]]:
    """For each case and job: what a return visit then costs times the chance, and what must be aboard to spare it."""
    for case in product(*(job.faults for job in problem.jobs)):
        chance = prod(fault.weight / job.weight for fault, job in zip(case, problem.jobs, strict=True))
        gone: Demand = {}
        for job, fault in zip(problem.jobs, case, strict=True):
            if not curable(problem, fault.needs):
                yield chance * job.penalty, None
                continue
            wanted = {}
            for item, pieces in fault.needs:
                wanted[item] = pieces
                if problem.items[item].used_up:
                    gone[item] = wanted[item] = gone.get(item, 0) + pieces
            yield chance * job.penalty, wanted


def curable(problem: LoadProblem, needs: tuple[tuple[int, int], ...]) -> bool:
    drawn = {item: max(0, pieces - problem.items[item].aboard) for item, pieces in needs}
    mass = sum(n * problem.items[item].mass for item, n in drawn.items())
    volume = sum(n * problem.items[item].volume for item, n in drawn.items())
    in_stock = all(n <= problem.items[item].stock for item, n in drawn.items())
    return (
        in_stock
        and mass <= (problem.mass or 0 if problem.mass is not None else mass)
        and (problem.volume is None or volume <= problem.volume)
    )


def least_by_cut(problem: LoadProblem) -> float:
    """Without limits."""
    graph = nx.DiGraph()
    graph.add_nodes_from(("source", "sink"))
    certain = 0.0
    for number, (penalty, wanted) in enumerate(ends(problem)):
        if wanted is None or any(n > there(problem, item) for item, n in wanted.items()):
            certain += penalty
            continue
        graph.add_edge("source", ("end", number), capacity=penalty)
        for item, n in wanted.items():
            graph.add_edge(("end", number), (item, n))
    for item, row in enumerate(problem.items):
        for n in range(1, there(problem, item) + 1):
            graph.add_edge((item, n), "sink", capacity=row.cost if n > row.aboard else 0)
            if n > 1:
                graph.add_edge((item, n), (item, n - 1))
    return float(nx.minimum_cut_value(graph, "source", "sink")) + certain


def least_by_programme(problem: LoadProblem) -> float:
    """With limits. Equal demands of several cases are one variable."""
    solver = exact_solver(1e-6)
    drawn = [[solver.addBinary(obj=row.cost) for _ in range(row.stock)] for row in problem.items]
    for pieces in drawn:
        for below, above in pairwise(pieces):
            solver.addConstr(below >= above)
    certain = 0.0
    penalties: dict[tuple[tuple[int, int], ...], float] = {}
    for penalty, wanted in ends(problem):
        if wanted is None or any(n > there(problem, item) for item, n in wanted.items()):
            certain += penalty
        elif any(n > problem.items[item].aboard for item, n in wanted.items()):
            key = tuple(sorted(wanted.items()))
            penalties[key] = penalties.get(key, 0.0) + penalty
    for needs, penalty in penalties.items():
        missed = solver.addVariable(lb=0, ub=1, obj=penalty)
        for item, n in needs:
            if n > problem.items[item].aboard:
                solver.addConstr(missed + drawn[item][n - problem.items[item].aboard - 1] >= 1)
    for limit, figures in (
        (problem.mass, [row.mass for row in problem.items]),
        (problem.volume, [row.volume for row in problem.items]),
    ):
        terms = [figure * piece for figure, pieces in zip(figures, drawn, strict=True) for piece in pieces]
        if limit is not None and terms:
            solver.addConstr(sum(terms[1:], terms[0]) <= limit)
    if not any(drawn):
        return certain + sum(penalties.values())
    solver.run()
    assert solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return float(solver.getInfo().objective_function_value) + certain


def there(problem: LoadProblem, item: int) -> int:
    return problem.items[item].aboard + problem.items[item].stock
