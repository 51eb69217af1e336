"""The same set-up problem as a constraint model for a general solver (CP-SAT), to set times side by side.

    python tests/benchmarks/general_solver.py [--seconds N]

needs `ortools` (extra `benchmark`). The model: a circuit through a start and all operations; a place in the order for
each, rising along chosen arcs and along precedence; for an operation without tools, what the hands hold after it.
"""

import argparse
import time

from appliances import appliance
from ortools.sat.python import cp_model

from splitpin.ordering.best import best_order
from splitpin.ordering.problem import OrderingProblem
from splitpin.ordering.result import Status

SIZES = ((6, 20), (9, 30), (12, 40))
"""Components, and about how many operations that gives."""


def least_seconds(problem: OrderingProblem, limit_s: float) -> tuple[int, int, bool]:
    """Elapsed seconds found, the bound, and whether they are proved equal. Only for problems without lags."""
    model = cp_model.CpModel()
    operations = problem.operations
    size, start = len(operations), len(operations)
    kinds = sorted({tuple(sorted(operation.tools)) for operation in operations if operation.tools} | {()})
    kind_of = [kinds.index(tuple(sorted(operation.tools))) for operation in operations] + [kinds.index(())]
    pickup = [[sum(problem.pickup_s[tool] for tool in new if tool not in held) for new in kinds] for held in kinds]
    place = [operation.position for operation in operations] + [problem.start_position]
    after = [{earlier for earlier, _ in operation.after} for operation in operations]
    held = {index: [model.new_bool_var("") for _ in kinds] for index in range(size) if not operations[index].tools}
    for choices in held.values():
        model.add_exactly_one(choices)
    turn = [model.new_int_var(0, size - 1, "") for _ in range(size)]
    fetch = [model.new_int_var(0, max(map(max, pickup)), "") for _ in range(size)]
    arcs, travel = [], []
    for a in range(size + 1):
        for b in range(size + 1):
            if a == b or (b < size and a in range(size) and b in after[a]):
                continue
            arc = model.new_bool_var("")
            arcs.append((a, b, arc))
            if b == start:
                continue
            travel.append(arc * problem.travel_s[place[a]][place[b]])
            if a == start:
                model.add(turn[b] == 0).only_enforce_if(arc)
            else:
                model.add(turn[b] == turn[a] + 1).only_enforce_if(arc)
            for kind in range(len(kinds)):
                if a in held:
                    known = [arc, held[a][kind]]
                elif kind_of[a] == kind:
                    known = [arc]
                else:
                    continue
                if b in held:
                    model.add_implication(arc, held[b][kind]) if len(known) == 1 else model.add_bool_or(
                        [arc.negated(), held[a][kind].negated(), held[b][kind]]
                    )
                else:
                    model.add(fetch[b] >= pickup[kind][kind_of[b]]).only_enforce_if(known)
    model.add_circuit(arcs)
    for index, earlier in enumerate(after):
        for other in earlier:
            model.add(turn[other] < turn[index])
    model.minimize(sum(fetch) + sum(travel) + sum(operation.seconds for operation in operations))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = limit_s
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    found = round(solver.objective_value) if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else -1
    return found, round(solver.best_objective_bound), status == cp_model.OPTIMAL


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seconds", type=float, default=20.0, help="limit of the general solver for each instance")
    parser.add_argument("--seeds", type=int, default=3)
    limit_s = parser.parse_args().seconds
    print("about  operations  ours: seconds  elapsed  proved | solver: seconds  elapsed  bound  proved |  ratio")
    for components, about in SIZES:
        for seed in range(parser.parse_args().seeds):
            problem = appliance(components, seed)
            begun = time.perf_counter()
            ours = best_order(problem)
            our_s = time.perf_counter() - begun
            begun = time.perf_counter()
            found, bound, proved = least_seconds(problem, limit_s)
            their_s = time.perf_counter() - begun
            assert ours.status is Status.PROVED
            assert found == ours.elapsed_s if proved else bound <= ours.elapsed_s <= max(found, ours.elapsed_s)
            print(
                f"{about:5} {len(problem.operations):11} {our_s:14.4f} {ours.elapsed_s:8} {'yes':>7} |"
                f" {their_s:15.2f} {found:8} {bound:6} {'yes' if proved else 'no':>7} |"
                f" {'' if proved else '>'}{their_s / our_s:.0f}",
                flush=True,
            )


if __name__ == "__main__":
    main()
