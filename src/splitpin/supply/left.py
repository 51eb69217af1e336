"""What stays behind and why; and the one piece more that would finish most more jobs."""

from collections.abc import Iterator, Mapping
from functools import partial

from splitpin.records.library import Round
from splitpin.records.supply import LoadExtra, LoadLeft
from splitpin.supply.chances import Chances, chances_of
from splitpin.supply.numbers import GRAMS, Numbers
from splitpin.supply.problem import LoadProblem
from splitpin.units import counted

_LEAST_GAIN = 1e-6  # of a job


def most_wanted(problem: LoadProblem, item: int) -> int:
    """The pieces of an item that all jobs together may want at most."""
    each = [max((dict(fault.needs).get(item, 0) for fault in job.faults), default=0) for job in problem.jobs]
    return sum(each) if problem.items[item].used_up else max(each, default=0)


def left_behind(
    done: Round, found: Numbers, counts: tuple[int, ...], titles: Mapping[str, str], chances: Chances
) -> Iterator[LoadLeft]:
    """Each part of which some fault may need more than is aboard, in the order of their ids."""
    problem = found.problem
    drawn = problem.drawn(counts)
    room = [
        None
        if limit is None
        else limit - sum(n * getattr(item, what) for n, item in zip(drawn, problem.items, strict=True))
        for limit, what in ((problem.mass, "mass"), (problem.volume, "volume"))
    ]
    for at, part in enumerate(found.parts):
        item = problem.items[at]
        missing = most_wanted(problem, at) - counts[at]
        if missing <= 0:
            continue
        in_reach = item.aboard + item.stock - counts[at]
        jobs = tuple(
            visit.job.job.reference
            for (_, visit), job, row in zip(done.visits, problem.jobs, chances.faults, strict=True)
            if any(at in dict(fault.needs) and cured < 1 for fault, cured in zip(job.faults, row, strict=True))
        )
        row = partial(LoadLeft, part=part, title=titles[part], pieces=missing, jobs=jobs)
        if part in done.van.van.may_not_carry:
            yield row(why="van-may-not")
        elif in_reach <= 0:
            there = item.aboard + item.stock
            yield row(why="not-in-stock", unit="piece", wanted=most_wanted(problem, at), there=there)
        elif room[0] is not None and item.mass > room[0]:
            yield row(why="no-room", unit="kg", wanted=item.mass / GRAMS, there=round(room[0] / GRAMS, 1))
        elif room[1] is not None and item.volume > room[1]:
            yield row(why="no-room", unit="l", wanted=item.volume / GRAMS, there=round(room[1] / GRAMS, 1))
        else:
            gain = _gain(problem, counts, at, chances)
            yield row(why="not-worth-it", gain=round(gain, 6) if gain > _LEAST_GAIN else 0)


def _gain(problem: LoadProblem, counts: tuple[int, ...], item: int, chances: Chances) -> float:
    more = tuple(n + (at == item) for at, n in enumerate(counts))
    return chances_of(problem, more).expected - chances.expected


def best_extra(
    found: Numbers, counts: tuple[int, ...], titles: Mapping[str, str], chances: Chances
) -> LoadExtra | None:
    """The part of which one piece more, from wherever it comes, adds most to the expected number of finished jobs."""
    problem = found.problem
    gains = [
        (_gain(problem, counts, at, chances), -at)
        for at in range(len(found.parts))
        if counts[at] < most_wanted(problem, at)
    ]
    gain, at = max(gains, default=(0.0, 0))
    if gain <= _LEAST_GAIN:
        return None
    item, part = problem.items[-at], found.parts[-at]
    in_store = counts[-at] < item.aboard + item.stock
    return LoadExtra(part=part, title=titles[part], gain=round(gain, 6), in_store=in_store)


def lacking(found: Numbers, counts: tuple[int, ...], job: int, fault: int, titles: Mapping[str, str]) -> Iterator[str]:
    """What one fault of one job needs and is not aboard, in words."""
    problem = found.problem
    for at, pieces in problem.jobs[job].faults[fault].needs:
        if counts[at] >= pieces:
            continue
        if at < len(found.parts):
            short = pieces - counts[at]
            yield titles[found.parts[at]] if pieces == 1 else f"{counted(short, 'piece')} of {titles[found.parts[at]]}"
        elif at < len(found.parts) + len(found.tools):
            yield f"{titles[found.tools[at - len(found.parts)]]} (a tool that the firm does not own)"
