"""Whether a load is what it says, by going through everything that can happen. Shares no code with the search."""

from itertools import product
from math import prod

from splitpin.supply.problem import LoadProblem
from splitpin.supply.result import SCALE, Load

_MOST_CASES = 200_000
_MOST_STOCKS = 5_000


def faults_of(problem: LoadProblem, load: Load) -> list[str]:
    """What is wrong with the load; empty when nothing is.

    The cost is checked where jobs have at most 200 000 combinations of faults, to a millionth of the money unit for
    each of them and each job.
    """
    wrong = _out_of_bounds(problem, load)
    if load.bound > load.cost:
        wrong.append("the bound is above the cost")
    cases = prod(len(job.faults) for job in problem.jobs)
    if cases <= _MOST_CASES:
        exact = expected_cost(problem, load.counts) * SCALE
        if abs(exact - load.cost) > 1 + len(problem.jobs) * cases:
            wrong.append(f"cost: {load.cost}, by counting {exact}")
    return wrong


def faults_of_shared(problem: LoadProblem, load: Load, cost: int, floor: int, given_up: float = 0.0) -> list[str]:
    """What is wrong with a load for jobs that share all or nothing; empty when nothing is.

    `cost` and `floor` in millionths of the unit of money; `given_up` is the chance that the cost leaves out. The cost
    is counted again, to a millionth for each job, as long as no more than 5000 different stocks can be left after a
    job. Time: jobs times faults times those.
    """
    wrong = _out_of_bounds(problem, load)
    if floor > cost:
        wrong.append("the bound is above the cost")
    exact = shared_cost(problem, load.counts)
    slack = 1 + len(problem.jobs) + given_up * SCALE * sum(job.penalty for job in problem.jobs)
    if exact is not None and abs(exact * SCALE - cost) > slack:
        wrong.append(f"cost: {cost}, by counting {round(exact * SCALE)}")
    return wrong


def shared_cost(problem: LoadProblem, counts: tuple[int, ...]) -> float | None:
    """As `expected_cost` for all or nothing, cases that leave the same to the jobs after them counted together.

    None where more than 5000 different stocks can be left.
    """
    carried = sum(max(0, count - item.aboard) * item.cost for count, item in zip(counts, problem.items, strict=True))
    expected = float(carried)
    stocks = {counts: 1.0}
    for number, job in enumerate(problem.jobs):
        later = {item for other in problem.jobs[number + 1 :] for fault in other.faults for item, _ in fault.needs}
        following: dict[tuple[int, ...], float] = {}
        for stock, chance in stocks.items():
            for fault in job.faults:
                share = chance * fault.weight / job.weight
                left = list(stock)
                if all(stock[item] >= pieces for item, pieces in fault.needs):
                    for item, pieces in fault.needs:
                        if problem.items[item].used_up:
                            left[item] -= pieces
                else:
                    expected += share * job.penalty
                told = tuple(n if item in later else 0 for item, n in enumerate(left))
                following[told] = following.get(told, 0.0) + share
        if len(following) > _MOST_STOCKS:
            return None
        stocks = following
    return expected


def _out_of_bounds(problem: LoadProblem, load: Load) -> list[str]:
    """Pieces that are not there or not counted right, and limits that are passed."""
    wrong: list[str] = []
    for number, (item, count, drawn) in enumerate(zip(problem.items, load.counts, load.drawn, strict=True)):
        if count > item.aboard + item.stock:
            wrong.append(f"item {number}: {count} wanted, {item.aboard + item.stock} there")
        if drawn != max(0, count - item.aboard):
            wrong.append(f"item {number}: {drawn} drawn for {count} wanted and {item.aboard} aboard")
    for name, limit, use in (
        ("mass", problem.mass, sum(n * item.mass for n, item in zip(load.drawn, problem.items, strict=True))),
        ("volume", problem.volume, sum(n * item.volume for n, item in zip(load.drawn, problem.items, strict=True))),
    ):
        if limit is not None and use > limit:
            wrong.append(f"{name}: {use} over {limit}")
    return wrong


def expected_cost(problem: LoadProblem, counts: tuple[int, ...], *, all_or_nothing: bool = False) -> float:
    """Carrying cost and expected penalties when every case is gone through; the cautious rule, or all or nothing."""
    carried = sum(max(0, count - item.aboard) * item.cost for count, item in zip(counts, problem.items, strict=True))
    expected = float(carried)
    for case in product(*(job.faults for job in problem.jobs)):
        chance = prod(fault.weight / job.weight for fault, job in zip(case, problem.jobs, strict=True))
        left = list(counts)
        for job, fault in zip(problem.jobs, case, strict=True):
            finished = all(left[item] >= pieces for item, pieces in fault.needs)
            if not finished:
                expected += chance * job.penalty
            if finished or not (all_or_nothing or _hopeless(problem, fault.needs)):
                for item, pieces in fault.needs:
                    if problem.items[item].used_up:
                        left[item] -= pieces
    return expected


def _hopeless(problem: LoadProblem, needs: tuple[tuple[int, int], ...]) -> bool:
    """A fault that the whole stock cannot cure within the limits takes nothing, by either rule."""
    rows = [(problem.items[item], pieces) for item, pieces in needs]
    if any(pieces > item.aboard + item.stock for item, pieces in rows):
        return True
    mass = sum(max(0, pieces - item.aboard) * item.mass for item, pieces in rows)
    volume = sum(max(0, pieces - item.aboard) * item.volume for item, pieces in rows)
    return (problem.mass is not None and mass > problem.mass) or (
        problem.volume is not None and volume > problem.volume
    )
