"""Steps 2 and 3 together: which openings, in which order, for the least elapsed time of the whole visit, and of the
plans that end as soon, the fewest hands-on seconds.

Openings come in the order of a cost that no plan with them can undercut (hands-on seconds, every tool fetched and
every position visited at least once). Each that can still win is ordered exactly, strip and refit; when the next
opening's cost and the hand-over reach the best elapsed time found, nothing later can win, and choice and order are
proved best together, under the habits that are kept. Our own rule: each half begins with empty hands at the first
position, so that the two are ordered each by itself.
"""

from collections.abc import Callable
from dataclasses import dataclass

from splitpin.access.listing import openings
from splitpin.access.result import Opening
from splitpin.ordering.best import best_order
from splitpin.ordering.result import OrderResult
from splitpin.planning.asked.expand import Wanted
from splitpin.planning.best.halves import Halves
from splitpin.planning.best.least import LeastElapsed
from splitpin.planning.best.rivals import Rivals
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import Doings
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act, Programme
from splitpin.planning.programme.demands import Demand, demands
from splitpin.planning.programme.habits import NOTHING_MORE, USUAL, Habits, in_their_order
from splitpin.planning.programme.refit import Refit
from splitpin.planning.programme.strip import Strip, doings_of


@dataclass(frozen=True, slots=True)
class Candidate:
    """One opening with both halves as programmes."""

    opening: Opening
    doings: Doings
    demanded: dict[str, Demand]
    strip: Programme
    refit: Refit


@dataclass(frozen=True, slots=True)
class Second:
    """The next best opening of those looked at: seconds that it takes, or takes at the least where not `exact`."""

    doings: Doings
    elapsed_s: int
    exact: bool


@dataclass(frozen=True, slots=True)
class Choice:
    """The opening chosen, its two orders, the elapsed time that no plan can undercut, and the next best opening."""

    candidate: Candidate
    strip: OrderResult
    refit: OrderResult
    bound_s: int
    tried: int
    second: Second | None = None

    @property
    def elapsed_s(self) -> int:
        """Strip and refit, waiting included."""
        return self.strip.elapsed_s + self.refit.elapsed_s

    @property
    def hands_on_s(self) -> int:
        """Strip and refit, waiting apart."""
        return self.strip.hands_on_s + self.refit.hands_on_s

    @property
    def gap_s(self) -> int:
        """How much better a plan could at most be; 0 when proved."""
        return max(0, self.elapsed_s - self.bound_s)


@dataclass(frozen=True, slots=True)
class Clash:
    """An opening whose acts wait for each other in a circle: the acts, first and last the same."""

    candidate: Candidate
    programme: Programme
    circle: tuple[Act, ...]


def choose(
    graph: Graph,
    plant: Plant,
    wanted: tuple[Wanted, ...],
    stop: Callable[[], bool] | None = None,
    habits: Habits = USUAL,
) -> Choice | Clash | None:
    """The best plan, or the first circle when no opening can be ordered, or None when nothing opens.

    `stop` ends the search early with the best found; the first opening is always ordered. Cost: one bound of
    both orders, some milliseconds, for every opening that `rivals` lets through, and few exact orderings.
    """
    best: Choice | None = None
    clash: Clash | None = None
    bound = None  # of the openings that are behind us without proof
    problem = graph.problem()
    least = LeastElapsed(graph, plant, problem, habits)
    rivals = Rivals(graph, plant, least, nothing_more=NOTHING_MORE in habits)
    halves = Halves(stop)
    seconds: list[Second] = []
    for opening in openings(problem, unwanted=rivals.out):
        least_s = opening.cost + least.hand_over_s
        if best is not None and least_s >= best.elapsed_s:
            seconds.append(Second(doings_of(opening, graph, plant), least_s, exact=False))
            break
        if best is not None and stop is not None and stop():
            bound = least_s if bound is None else min(least_s, bound)
            break
        doings = doings_of(opening, graph, plant)
        if (clash is None and _left_out(opening, graph, habits)) or not rivals.is_new(doings):
            continue
        candidate = candidate_of(opening, doings, graph, plant, wanted, habits)
        limit_s = None if best is None else best.elapsed_s + (least_s < best.hands_on_s)  # as soon, with less to do
        found = _order(candidate, plant, limit_s, halves)
        if isinstance(found, Clash):
            clash = clash or found
            continue
        rivals.add(doings)
        if isinstance(found, int):
            bound = found if bound is None else min(found, bound)  # below the best only where the search was stopped
            seconds.append(Second(doings, found, exact=False))
        else:
            best, loser = (found, best) if best is None or _before(found, best) else (best, found)
            rivals.best_s = best.elapsed_s
            if loser is not None:
                seconds.append(Second(loser.candidate.doings, loser.elapsed_s, exact=loser.bound_s == loser.elapsed_s))
            for choice in (found, loser):
                if choice is not None and choice.bound_s < choice.elapsed_s:
                    bound = choice.bound_s if bound is None else min(bound, choice.bound_s)
    if best is None:
        return clash
    proved_s = best.elapsed_s if bound is None else min(best.elapsed_s, bound)
    second = min(seconds, key=lambda row: row.elapsed_s, default=None)
    return Choice(best.candidate, best.strip, best.refit, proved_s, len(rivals), second)


def _before(one: Choice, other: Choice) -> bool:
    return (one.elapsed_s, one.hands_on_s) < (other.elapsed_s, other.hands_on_s)


def _left_out(opening: Opening, graph: Graph, habits: Habits) -> bool:
    return any(habit.opening is not None and habit.opening(opening, graph) for habit in in_their_order(habits))


def candidate_of(
    opening: Opening, doings: Doings, graph: Graph, plant: Plant, wanted: tuple[Wanted, ...], habits: Habits = USUAL
) -> Candidate:
    """An opening with both halves as programmes, its doings given as `doings_of` gives them."""
    demanded = demands(doings, plant, wanted)
    return Candidate(
        opening,
        doings,
        demanded,
        Strip(doings, plant, habits).programme,
        Refit(opening, graph, doings, demanded, plant, wanted, habits),
    )


def _order(candidate: Candidate, plant: Plant, limit_s: int | None, halves: Halves) -> Choice | Clash | int:
    """Both halves ordered; or seconds that they take at the least, when no order is found that ends in time."""
    for programme in (candidate.strip, candidate.refit.programme):
        if programme.goes_round():
            return Clash(candidate, programme, _circle(programme, best_order(programme.problem(plant))))
    strip_problem = candidate.strip.problem(plant)
    refit_problem = candidate.refit.programme.problem(plant)
    left = None
    if limit_s is not None:
        refit_s = halves.bound(refit_problem)
        left = limit_s - refit_s
        strip_s = halves.bound(strip_problem)
        if strip_s >= left:
            return strip_s + refit_s
    strip = halves.best(strip_problem, left)
    if strip is None:
        return halves.bound(strip_problem) + halves.bound(refit_problem)
    refit = halves.best(refit_problem, None if limit_s is None else limit_s - strip.elapsed_s)
    if refit is None:
        return strip.bound_s + halves.bound(refit_problem)
    return Choice(candidate, strip, refit, strip.bound_s + refit.bound_s, 1)


def _circle(programme: Programme, result: OrderResult) -> tuple[Act, ...]:
    return tuple(programme.acts[number] for number in result.causes)
