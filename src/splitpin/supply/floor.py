"""What no load of a round costs less than, when jobs share stock all or nothing.

If every job found the whole load still there, the best load would cost so much: that is a first floor. Jobs of which
the fault is known raise it. Either such a job is served: then its pieces are carried and gone for the jobs after it;
or it is not: then its penalty is paid, and that mostly costs more than a load which is known already. A served job is
sure to take its pieces only if no job before it, whose fault is open, may want any of them.

By hand: job 1 needs the only board for certain, job 2 with chance 1/10; penalties 95. Alone both could be finished:
floor 0. Job 1 served: job 2 finds no board, 9.50; not served: 95. The floor is 9.50.
"""

from collections.abc import Callable
from dataclasses import replace

from splitpin.supply.problem import Fault, Item, Job, LoadProblem
from splitpin.supply.result import SCALE
from splitpin.supply.search import best_load


def floor(problem: LoadProblem, cost: int, stop: Callable[[], bool] | None = None) -> int:
    """A bound in millionths; `cost` is that of a known load, beyond which nobody looks.

    Cost: one `best_load` for each job of known fault that competes with others, seldom twice as many. Our own rule.
    """
    bound = best_load(problem, stop, alone=True).bound
    if bound >= cost or (stop and stop()):
        return bound
    job = _first_sure(problem)
    if job is None:
        return bound
    carried, rest = _served(problem, job)
    served = carried + floor(rest, cost - carried, stop)
    if served <= bound:
        return bound
    return max(bound, min(served, floor(_not_served(problem, job), cost, stop)))


def _first_sure(problem: LoadProblem) -> int | None:
    """The first job of one fault that can be served, before which no job of several wants its pieces, and which later
    jobs compete with.
    """
    open_before: set[int] = set()
    for number, job in enumerate(problem.jobs):
        if len(job.faults) == 1:
            needs = job.faults[0].needs
            own = {item for item, _ in needs if problem.items[item].used_up}
            there = all(pieces <= problem.items[item].aboard + problem.items[item].stock for item, pieces in needs)
            later = {item for other in problem.jobs[number + 1 :] for fault in other.faults for item, _ in fault.needs}
            if there and own & later and not own & open_before:
                return number
        open_before |= {item for fault in job.faults for item, _ in fault.needs}
    return None


def _served(problem: LoadProblem, job: int) -> tuple[int, LoadProblem]:
    """What carrying its pieces costs, in millionths, and the round without the job and its pieces."""
    items = list(problem.items)
    cost = mass = volume = 0
    for number, pieces in problem.jobs[job].faults[0].needs:
        item = items[number]
        drawn = max(0, pieces - item.aboard)
        cost += drawn * item.cost
        mass += drawn * item.mass
        volume += drawn * item.volume
        left = max(0, item.aboard - pieces) if item.used_up else max(item.aboard, pieces)
        items[number] = replace(item, aboard=left, stock=item.stock - drawn)
    jobs = (*problem.jobs[:job], Job(0, (Fault(1),)), *problem.jobs[job + 1 :])
    limits = (
        None if limit is None else max(0, limit - used)
        for limit, used in ((problem.mass, mass), (problem.volume, volume))
    )
    return cost * SCALE, LoadProblem(tuple(items), jobs, *limits)


def _not_served(problem: LoadProblem, job: int) -> LoadProblem:
    """The round in which the job needs a thing that nobody has."""
    hopeless = Job(problem.jobs[job].penalty, (Fault(1, ((len(problem.items), 1),)),))
    jobs = (*problem.jobs[:job], hopeless, *problem.jobs[job + 1 :])
    return LoadProblem((*problem.items, Item()), jobs, problem.mass, problem.volume)
