"""What the load of a round is worth, as claims: so likely a job ends at the first visit if so much is aboard.

Jobs are visited in turn. The cautious rule: what earlier jobs turn out to need counts as gone, whether or not they
could be finished. A job then ends exactly if, of each item, its own need and the earlier needs together are aboard. So
each fault falls apart into claims, one for each total of earlier needs, and gains add up: choosing the load is a
closure problem. Where an unfinished job leaves its pieces to the next (all or nothing), at least as much is finished.

By hand: two jobs, each needs a board with chance 1/2. The first board is claimed by job 1 with 1/2 and by job 2 with
1/2 * 1/2, the second board by job 2 with 1/2 * 1/2: worth 3/4 and 1/4 of a job.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from math import gcd
from operator import add

from splitpin.supply.problem import LoadProblem
from splitpin.supply.result import SCALE

_MOST_TOTALS = 4_000  # totals of earlier needs that are told apart; the least likely beyond are given up

Levels = tuple[tuple[int, int], ...]  # (column, level), sorted
_User = tuple[int, int]  # a job and one of its faults
_Spread = dict[tuple[int, ...], float]  # totals with their chances


@dataclass(frozen=True, slots=True)
class Step:
    """The pieces that are drawn to raise a column by one level; what that costs (in millionths), weighs and fills."""

    drawn: int
    cost: int
    mass: int
    volume: int


@dataclass(frozen=True, slots=True)
class Column:
    """Items that are always needed together, in fixed numbers: one decision. `steps` has one entry for each level."""

    members: tuple[tuple[int, int], ...]  # (item, pieces of it for one level)
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Claims:
    """`claims` gives for each set of levels what is gained (in millionths) if all of them are reached.

    `lost` is the gain that no load can bring, `given_up` the part of it that was only left out of the count.
    """

    columns: tuple[Column, ...]
    claims: tuple[tuple[Levels, int], ...]
    lost: int
    given_up: int

    def cost(self, levels: tuple[int, ...]) -> int:
        """The expected cost in millionths when so many levels of each column are aboard."""
        carried = sum(step.cost for column, n in zip(self.columns, levels, strict=True) for step in column.steps[:n])
        missed = sum(gain for needs, gain in self.claims if any(levels[column] < level for column, level in needs))
        return carried + missed + self.lost

    def use(self, levels: tuple[int, ...]) -> tuple[int, int]:
        """Mass and volume drawn."""
        steps = [step for column, n in zip(self.columns, levels, strict=True) for step in column.steps[:n]]
        return sum(step.mass for step in steps), sum(step.volume for step in steps)

    def counts(self, levels: tuple[int, ...], items: int) -> tuple[int, ...]:
        """Pieces of each of the `items` items."""
        found = [0] * items
        for column, level in zip(self.columns, levels, strict=True):
            for item, pieces in column.members:
                found[item] = pieces * level
        return tuple(found)


def claims_of(problem: LoadProblem, *, alone: bool = False) -> Claims:
    """The claims of a round, in an order of their own that the problem alone decides.

    `alone`: as if every job found the whole load still there; no rule of sharing can finish more.

    Cost grows with jobs * faults * totals of earlier needs of the items of one fault. Our own rule.
    """
    faults = _possible(problem)
    columns, needs = _columns(problem, faults)
    gains: dict[Levels, float] = defaultdict(float)
    given_up = 0.0
    totals = _Totals(problem, columns, needs)
    for number, job in enumerate(problem.jobs):
        for at in faults[number]:
            own = needs[number, at]
            used = tuple((column, level) for column, level in own if _used_up(problem, columns[column]))
            kept = tuple((column, level) for column, level in own if not _used_up(problem, columns[column]))
            share = job.penalty * SCALE * job.faults[at].weight / job.weight
            seen, dropped = totals.before(0 if alone else number, tuple(column for column, _ in used))
            given_up += share * dropped
            for earlier, chance in seen.items():
                levels = tuple((column, level + n) for (column, level), n in zip(used, earlier, strict=True))
                if all(level <= len(columns[column].steps) for column, level in levels):
                    gains[tuple(sorted((*levels, *kept)))] += share * chance
    whole = {levels: round(gain) for levels, gain in sorted(gains.items())}
    everything = sum(job.penalty for job in problem.jobs) * SCALE
    lost = everything - sum(whole.values())
    rows = tuple((levels, gain) for levels, gain in whole.items() if levels and gain > 0)
    return Claims(columns, rows, lost, max(0, min(lost, round(given_up))))


def _used_up(problem: LoadProblem, column: Column) -> bool:
    return problem.items[column.members[0][0]].used_up


def _possible(problem: LoadProblem) -> list[list[int]]:
    """The faults of each job that the whole stock could cure within the limits; the others never take anything."""
    return [[at for at, fault in enumerate(job.faults) if _fits(problem, fault.needs)] for job in problem.jobs]


def _fits(problem: LoadProblem, needs: Iterable[tuple[int, int]]) -> bool:
    mass = volume = 0
    for number, pieces in needs:
        item = problem.items[number]
        if pieces > item.aboard + item.stock:
            return False
        drawn = max(0, pieces - item.aboard)
        mass += drawn * item.mass
        volume += drawn * item.volume
    return mass <= _limit(problem.mass, mass) and volume <= _limit(problem.volume, volume)


def _limit(limit: int | None, otherwise: int) -> int:
    return otherwise if limit is None else limit


def _columns(problem: LoadProblem, faults: list[list[int]]) -> tuple[tuple[Column, ...], dict[_User, Levels]]:
    """The items that some possible fault needs, those of one pattern together; and each fault's needs in levels."""
    wanted: dict[int, dict[_User, int]] = defaultdict(dict)
    for number, job in enumerate(problem.jobs):
        for at in faults[number]:
            for item, pieces in job.faults[at].needs:
                wanted[item][number, at] = pieces
    alike: dict[tuple[bool, tuple[tuple[_User, int], ...]], list[tuple[int, int]]] = defaultdict(list)
    for item, users in sorted(wanted.items()):
        unit = gcd(*users.values())
        pattern = tuple((user, pieces // unit) for user, pieces in users.items())
        alike[problem.items[item].used_up, pattern].append((item, unit))
    columns: list[Column] = []
    needs: dict[_User, list[tuple[int, int]]] = {(n, at): [] for n, ats in enumerate(faults) for at in ats}
    for (used_up, _), members in alike.items():
        first, unit = members[0]
        levels = {user: pieces // unit for user, pieces in wanted[first].items()}
        for user, level in levels.items():
            needs[user].append((len(columns), level))
        columns.append(Column(tuple(members), _steps(problem, members, _most(levels, used_up=used_up))))
    return tuple(columns), {user: tuple(levels) for user, levels in needs.items()}


def _most(levels: dict[_User, int], *, used_up: bool) -> int:
    """The highest level that can be of use."""
    of_job: dict[int, int] = defaultdict(int)
    for (job, _), level in levels.items():
        of_job[job] = max(of_job[job], level)
    return sum(of_job.values()) if used_up else max(of_job.values())


def _steps(problem: LoadProblem, members: list[tuple[int, int]], most: int) -> tuple[Step, ...]:
    possible = min((problem.items[item].aboard + problem.items[item].stock) // unit for item, unit in members)
    steps = []
    for level in range(1, min(most, possible) + 1):
        pieces = cost = mass = volume = 0
        for number, unit in members:
            item = problem.items[number]
            drawn = max(0, level * unit - item.aboard) - max(0, (level - 1) * unit - item.aboard)
            pieces += drawn
            cost += drawn * item.cost * SCALE
            mass += drawn * item.mass
            volume += drawn * item.volume
        steps.append(Step(pieces, cost, mass, volume))
    return tuple(steps)


class _Totals:
    """The distribution of what earlier jobs need of a few columns together, carried forward from job to job."""

    def __init__(self, problem: LoadProblem, columns: tuple[Column, ...], needs: dict[_User, Levels]) -> None:
        self.highest = tuple(len(column.steps) for column in columns)
        self.jobs = [
            [(fault.weight / job.weight, dict(needs.get((number, at), ()))) for at, fault in enumerate(job.faults)]
            for number, job in enumerate(problem.jobs)
        ]
        self.known: dict[tuple[int, ...], tuple[int, _Spread, float]] = {}

    def before(self, job: int, of: tuple[int, ...]) -> tuple[_Spread, float]:
        """Chance of each total of the columns `of` over the jobs before this one, and the chance that was given up.

        Totals with which nothing more could be cured are left out. To be asked in the order of the jobs.
        """
        at, spread, dropped = self.known.get(of, (0, {(0,) * len(of): 1.0}, 0.0))
        for earlier in self.jobs[at:job]:
            spread, lost = self._with(earlier, spread, of)
            dropped += lost
        self.known[of] = (job, spread, dropped)
        return spread, dropped

    def _with(
        self, faults: list[tuple[float, dict[int, int]]], spread: _Spread, of: tuple[int, ...]
    ) -> tuple[_Spread, float]:
        outcomes: _Spread = defaultdict(float)
        for chance, levels in faults:
            outcomes[tuple(levels.get(column, 0) for column in of)] += chance
        if len(outcomes) == 1 and not any(next(iter(outcomes))):
            return spread, 0.0
        found: _Spread = defaultdict(float)
        for total, chance in spread.items():
            for more, share in outcomes.items():
                together = tuple(map(add, total, more))
                if all(level < self.highest[column] for column, level in zip(of, together, strict=True)):
                    found[together] += chance * share
        if len(found) <= _MOST_TOTALS:
            return found, 0.0
        likeliest = sorted(found.items(), key=lambda entry: (-entry[1], entry[0]))
        return dict(likeliest[:_MOST_TOTALS]), sum(chance for _, chance in likeliest[_MOST_TOTALS:])
