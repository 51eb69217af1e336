"""How likely each job of a round is finished at the first visit with what is aboard: all or nothing, in visiting order.

A job takes its pieces only if everything that its fault needs is there, and then they are gone for the jobs after it.
By hand: two jobs that need a board with chance 1/2 each, one board aboard: the first is finished always, the second but
for the one case in four where both need it: 1, 3/4, both 3/4.

More aboard is not always better: a piece that lets an early job finish may cost two later ones what it then takes.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from splitpin.supply.problem import LoadProblem

_MOST_STATES = 50_000  # of the stock left over that are told apart; the least likely beyond are given up


@dataclass(frozen=True, slots=True)
class Chances:
    """`faults[job][fault]`: chance that the job is finished when it has this fault. `jobs`: over all its faults.

    `every`: all jobs are finished. All are exact but for `given_up`, a chance by which each may be too low.
    """

    faults: tuple[tuple[float, ...], ...]
    jobs: tuple[float, ...]
    every: float
    given_up: float

    @property
    def expected(self) -> float:
        """The expected number of jobs finished at the first visit."""
        return sum(self.jobs)


def chances_of(problem: LoadProblem, counts: tuple[int, ...]) -> Chances:
    """The chances with `counts` pieces of each item aboard.

    A dynamic programme over the stock that is left of items that may run out, for each group of jobs that compete for
    them. Cost grows with faults * jobs * stocks that can be left. Our own rule.
    """
    able = [
        [all(counts[item] >= pieces for item, pieces in fault.needs) for fault in job.faults] for job in problem.jobs
    ]
    scarce = _scarce(problem, counts, able)
    done = [[float(yes) for yes in row] for row in able]
    every, given_up = 1.0, 0.0
    for group in _groups(problem, able, scarce):
        all_done, lost = _visit(problem, counts, able, scarce, group, done)
        every *= all_done
        given_up += lost
    jobs = tuple(
        sum(fault.weight * chance for fault, chance in zip(job.faults, row, strict=True)) / job.weight
        for job, row in zip(problem.jobs, done, strict=True)
    )
    return Chances(tuple(map(tuple, done)), jobs, every, given_up)


def _scarce(problem: LoadProblem, counts: tuple[int, ...], able: list[list[bool]]) -> frozenset[int]:
    """The items that the jobs together may need more of than there is."""
    most: dict[int, int] = defaultdict(int)
    for job, row in zip(problem.jobs, able, strict=True):
        of_job: dict[int, int] = defaultdict(int)
        for fault, yes in zip(job.faults, row, strict=True):
            for item, pieces in fault.needs if yes else ():
                of_job[item] = max(of_job[item], pieces)
        for item, pieces in of_job.items():
            most[item] += pieces
    return frozenset(item for item, n in most.items() if n > counts[item] and problem.items[item].used_up)


def _groups(problem: LoadProblem, able: list[list[bool]], scarce: frozenset[int]) -> Iterator[list[int]]:
    """The jobs in groups that share no scarce item, each in visiting order."""
    group_of: dict[int, list[int]] = {}
    groups: list[list[int]] = []
    for number in range(len(problem.jobs)):
        wanted = _wanted(problem, able, scarce, number)
        old = [group for group in groups if any(group_of.get(item) is group for item in wanted)]
        merged = sorted([number, *(one for group in old for one in group)])
        groups = [group for group in groups if all(group is not one for one in old)] + [merged]
        for item, group in group_of.items():
            if any(group is one for one in old):
                group_of[item] = merged
        for item in wanted:
            group_of[item] = merged
    yield from groups


def _wanted(problem: LoadProblem, able: list[list[bool]], scarce: frozenset[int], number: int) -> list[int]:
    faults = zip(problem.jobs[number].faults, able[number], strict=True)
    return sorted({item for fault, yes in faults if yes for item, _ in fault.needs if item in scarce})


def _visit(
    problem: LoadProblem,
    counts: tuple[int, ...],
    able: list[list[bool]],
    scarce: frozenset[int],
    group: list[int],
    done: list[list[float]],
) -> tuple[float, float]:
    """The jobs of a group in turn; fills in `done`. The chance that all are finished, and the chance given up."""
    items = sorted({item for number in group for item in _wanted(problem, able, scarce, number)})
    last = {item: number for number in group for item in _wanted(problem, able, scarce, number)}
    # stock left of `items`, noughts for those that nobody needs any more: its chance, and that with all done so far
    states: dict[tuple[int, ...], tuple[float, float]] = {tuple(counts[item] for item in items): (1.0, 1.0)}
    given_up = 0.0
    for number in group:
        job = problem.jobs[number]
        found: dict[tuple[int, ...], tuple[float, float]] = defaultdict(lambda: (0.0, 0.0))
        finished = [0.0] * len(job.faults)
        for left, (chance, whole) in states.items():
            stock = dict(zip(items, left, strict=True))
            for at, fault in enumerate(job.faults):
                share = fault.weight / job.weight
                needs = {item: pieces for item, pieces in fault.needs if item in stock}
                ends = able[number][at] and all(stock[item] >= pieces for item, pieces in needs.items())
                after = tuple(
                    0 if last[item] <= number else n - (needs.get(item, 0) if ends else 0) for item, n in stock.items()
                )
                old = found[after]
                found[after] = (old[0] + chance * share, old[1] + (whole * share if ends else 0.0))
                finished[at] += chance if ends else 0.0
        done[number] = finished
        states = found
        if len(found) > _MOST_STATES:
            likeliest = sorted(found.items(), key=lambda entry: (-entry[1][0], entry[0]))
            states = dict(likeliest[:_MOST_STATES])
            given_up += sum(chance for _, (chance, _) in likeliest[_MOST_STATES:])
    return sum(whole for _, whole in states.values()), given_up
