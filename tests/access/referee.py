"""The least cost by a general solver: a mixed-integer programme with order variables, worked by HiGHS.

One binary for each node, each alternative of each need, and each charge. A node in the set takes an alternative of
each of its needs; an alternative taken brings its nodes, and each of them has an earlier place than the node served,
which no circle can have. Shares no code and no idea with the search.
"""

import highspy
from tests.highs import exact_solver

from splitpin.access.problem import AccessProblem


def least_cost(problem: AccessProblem) -> int | None:
    """The least cost of an opening, or None when there is none. Costs are whole, so half a unit is proof enough."""
    solver = exact_solver(0.5)
    size = len(problem.nodes)
    taken = [solver.addBinary(obj=node.cost) for node in problem.nodes]
    paid = [solver.addBinary(obj=price) for price in problem.charge_costs]
    place = [solver.addVariable(lb=0, ub=size) for _ in problem.nodes]
    for need in problem.targets:
        if not need:
            return None
        ways = [solver.addBinary() for _ in need]
        solver.addConstr(sum(ways) >= 1)
        for way, alternative in zip(ways, need, strict=True):
            for node in sorted(alternative):
                solver.addConstr(taken[node] >= way)
    for number, node in enumerate(problem.nodes):
        for charge in sorted(node.charges):
            solver.addConstr(paid[charge] >= taken[number])
        for need in node.needs:
            ways = [solver.addBinary() for _ in need]
            solver.addConstr(sum(ways) - taken[number] >= 0)  # without an alternative the node stays out
            for way, alternative in zip(ways, need, strict=True):
                for other in sorted(alternative):
                    solver.addConstr(taken[other] >= way)
                    solver.addConstr(place[number] - place[other] >= 1 - (size + 1) * (1 - way))
    solver.run()
    status = solver.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return None
    assert status == highspy.HighsModelStatus.kOptimal, status
    return round(solver.getInfo().objective_function_value)
