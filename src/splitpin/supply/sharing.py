"""The load for jobs that share stock all or nothing: the cautious load, bettered where it pays to let a fault go.

The cautious rule counts what a job needs as gone even where the load cannot finish that job. It may then be better to
say beforehand which faults are let go: they take nothing, and what they would have blocked serves others. Job by job,
the faults that the load leaves uncured are let go for a trial, and the trial kept when the chances gain by it.

Where the cost meets the floor (`floor`) the load is proved best; else the difference is how far from best it can be.

By hand: job 1 needs A and B, job 2 needs A; there is one A and no room for B. Cautious: A is gone, nothing is carried.
With job 1 let go, A is carried for job 2.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from splitpin.supply.chances import Chances, chances_of
from splitpin.supply.floor import floor
from splitpin.supply.problem import Fault, Item, Job, LoadProblem
from splitpin.supply.result import SCALE, Load
from splitpin.supply.search import best_load

_TRIALS = 60


@dataclass(frozen=True, slots=True)
class SharedLoad:
    """`load` is the best one by the cautious rule once `let_go` take nothing; `cost` what it costs all or nothing.

    Costs in millionths of the problem's unit of money; no load costs less than `floor`.
    """

    load: Load
    chances: Chances
    let_go: tuple[tuple[int, int], ...]  # (job, fault)
    cost: int
    floor: int

    @property
    def gap(self) -> float:
        """How far from best it can be, as a share of its own cost; 0 means proved best."""
        slack = len(self.chances.jobs)  # each expected cost is rounded to a millionth for each job
        return 0.0 if self.cost <= self.floor + slack else (self.cost - self.floor) / self.cost


def shared_load(problem: LoadProblem, stop: Callable[[], bool] | None = None) -> SharedLoad:
    """The best load found for all or nothing in visiting order, with its floor. `stop` as in `best_load`.

    Cost: that of `best_load` once for the load and once for each trial (at most sixty), and that of the floor. Our own
    rule.
    """
    best = _valued(problem, (), stop)
    trials = 0
    lowest = best_load(problem, stop, alone=True).bound
    improved = True
    while improved and best.cost > lowest and trials < _TRIALS and not (stop and stop()):
        improved = False
        for more in _candidates(problem, best):
            if trials >= _TRIALS or (stop and stop()):
                break
            trials += 1
            trial = _valued(problem, tuple(sorted({*best.let_go, *more})), stop)
            if trial.cost < best.cost:
                best, improved = trial, True
                break
    return replace(best, floor=min(best.cost, floor(problem, best.cost, stop)))


def expected_cost(problem: LoadProblem, counts: tuple[int, ...], chances: Chances) -> int:
    """Carrying cost and expected penalties in millionths, by these chances."""
    carried = sum(n * item.cost for n, item in zip(problem.drawn(counts), problem.items, strict=True))
    missed = sum(job.penalty * (1 - chance) for job, chance in zip(problem.jobs, chances.jobs, strict=True))
    return carried * SCALE + round(missed * SCALE)


def _valued(problem: LoadProblem, let_go: tuple[tuple[int, int], ...], stop: Callable[[], bool] | None) -> SharedLoad:
    load = best_load(_without(problem, let_go), stop)
    load = replace(load, counts=load.counts[: len(problem.items)], drawn=load.drawn[: len(problem.items)])
    chances = chances_of(problem, load.counts)
    return SharedLoad(load, chances, let_go, expected_cost(problem, load.counts, chances), 0)


def _without(problem: LoadProblem, let_go: tuple[tuple[int, int], ...]) -> LoadProblem:
    """The problem in which these faults need a thing that nobody has."""
    if not let_go:
        return problem
    nowhere = ((len(problem.items), 1),)
    jobs = tuple(
        Job(
            job.penalty,
            tuple(
                Fault(fault.weight, nowhere) if (number, at) in let_go else fault for at, fault in enumerate(job.faults)
            ),
        )
        for number, job in enumerate(problem.jobs)
    )
    return LoadProblem((*problem.items, Item()), jobs, problem.mass, problem.volume)


def _candidates(problem: LoadProblem, found: SharedLoad) -> list[tuple[tuple[int, int], ...]]:
    """Sets of faults that share an item with a later job, to let go for a trial: what is uncured anyway, job by job,
    then all of it, then jobs as a whole.
    """
    wanted: dict[int, set[int]] = {}
    for number, job in enumerate(problem.jobs):
        for fault in job.faults:
            for item, _ in fault.needs:
                if problem.items[item].used_up:
                    wanted.setdefault(item, set()).add(number)
    uncured, whole = [], []
    for number, job in enumerate(problem.jobs):
        competing = [
            (number, at)
            for at, fault in enumerate(job.faults)
            if (number, at) not in found.let_go
            and any(max(wanted.get(item, {number})) > number for item, _ in fault.needs)
        ]
        lacking = [
            (number, at)
            for number, at in competing
            if any(found.load.counts[item] < pieces for item, pieces in job.faults[at].needs)
        ]
        uncured += [tuple(lacking)] if lacking else []
        whole += [tuple(competing)] if competing and competing != lacking else []
    together = [tuple(one for row in uncured for one in row)] if len(uncured) > 1 else []
    return [*uncured, *together, *whole]
