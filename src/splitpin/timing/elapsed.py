"""Hands-on time against the waits that run by themselves: how long the visit is on site, and how much of it is idle.

Work is cut into legs at the places where a wait begins or where work must stand still for one. The largest of a wait
and the work meanwhile has no simple law, so the legs are run through a fixed Latin hypercube: each quantity takes each
of its 4096 equally likely values once, in an order of its own (M. D. McKay, R. J. Beckman, W. J. Conover, Technometrics
21 (1979) 239-245). No chance is left in it: the same plan gives the same figures. By hand: a wait of 10 min beside
4 min of work, then 5 min more: 15 min elapsed, 6 min of it idle.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import accumulate
from math import exp
from statistics import NormalDist

from splitpin.planning.programme.acts import Act
from splitpin.planning.written.course import Course
from splitpin.timing.elements import Element, elements_of_act
from splitpin.timing.events import Occasion, cases_of
from splitpin.timing.moments import Moments, of_lognormal, total
from splitpin.timing.pace import Pace
from splitpin.timing.site import Site
from splitpin.timing.spread import Lognormal, Sample, sample, three_moments

POINTS = 8192
_SET_UP = ("move", "tool")


@dataclass(slots=True)
class Leg:
    """Work without a break; then it stands still until `awaits` have run out, and then the wait `starts` begins."""

    elements: list[Element] = field(default_factory=list)
    occasions: list[Occasion] = field(default_factory=list)
    awaits: tuple[Act, ...] = ()
    starts: Act | None = None
    wait_s: float = 0.0


def legs_of(course: Course, site: Site, occasions: Iterable[Occasion]) -> tuple[Leg, ...]:
    """The legs of a course on a site, in order; set-up is done while a wait still runs, as in the plan."""
    by_step: dict[int, list[Occasion]] = {}
    for occasion in occasions:
        by_step.setdefault(occasion.step, []).append(occasion)
    legs = [Leg(list(site.once()))]
    over: set[Act] = set()
    for done in course.done:
        own = [site.applied(element) for element in elements_of_act(done, course)]
        legs[-1].elements += [element for element in own if element.kind in _SET_UP]
        awaits = tuple(act for act in done.slot.waits_for if act not in over)
        if awaits:
            over.update(awaits)
            legs[-1].awaits = awaits
            legs.append(Leg())
        legs[-1].elements += [element for element in own if element.kind not in _SET_UP]
        legs[-1].occasions += by_step.get(done.steps[0].n, [])
        if done.act.wait_s:
            legs[-1].starts, legs[-1].wait_s = done.act, done.act.wait_s
            legs.append(Leg())
    return tuple(legs)


def hands_of(elements: Iterable[Element]) -> Moments:
    """Moments of the sum of elements; those with the same draw vary as one."""
    draws: dict[str, tuple[float, float]] = {}
    for element in elements:
        seconds, _ = draws.get(element.draw, (0.0, 0.0))
        draws[element.draw] = (seconds + element.seconds, element.log_sd)
    return total(of_lognormal(seconds, log_sd) for seconds, log_sd in draws.values())


def on_site(legs: Sequence[Leg], pace: Pace, factor: float, wait_log_sd: float) -> tuple[Sample, Sample]:
    """Elapsed and idle time. `factor` stands on all hands-on time beside the pace. Cost: points times legs."""
    columns = _columns()
    hands = [_drawn(leg, columns) for leg in legs]
    paces = [factor * exp(pace.log_mean + pace.log_sd * z) for z in next(columns)]
    waits = {
        leg.starts: [leg.wait_s * exp(wait_log_sd * z - wait_log_sd**2 / 2) for z in next(columns)]
        for leg in legs
        if leg.starts is not None
    }
    elapsed, idle = [], []
    for point in range(POINTS):
        now = still = 0.0
        ready: dict[Act, float] = {}
        for leg, taken in zip(legs, hands, strict=True):
            now += taken[point] * paces[point]
            for wait in leg.awaits:
                if ready[wait] > now:
                    still += ready[wait] - now
                    now = ready[wait]
            if leg.starts is not None:
                ready[leg.starts] = now + waits[leg.starts][point]
        elapsed.append(now)
        idle.append(still)
    return sample(elapsed), sample(idle)


def _drawn(leg: Leg, columns: Iterator[list[float]]) -> list[float]:
    """Hands-on seconds of a leg at each point, before pace and allowance, events among them."""
    work = hands_of(leg.elements)
    laws: list[Lognormal] = []
    chances: list[float] = []
    for case in cases_of(tuple(leg.occasions)):
        time = total((work, case.cost))
        if time.mean > 0:
            laws.append(three_moments(time))
            chances.append(case.chance)
    if not laws:
        return [0.0] * POINTS
    if len(laws) == 1:
        return [laws[0].at(z) for z in next(columns)]
    ends = list(accumulate(chances))
    cases = [_case(ends, (rank + 0.5) / POINTS) for rank in range(POINTS)]  # each case as often as its chance says
    return [laws[cases[rank]].at(z) for rank, z in zip(_ranks(next(columns)), next(columns), strict=True)]


def _case(ends: list[float], share: float) -> int:
    return next((index for index, end in enumerate(ends) if share <= end), len(ends) - 1)


@cache
def _normals() -> tuple[float, ...]:
    """The middles of equally likely slices of the standard normal law."""
    return tuple(NormalDist().inv_cdf((rank + 0.5) / POINTS) for rank in range(POINTS))


@cache
def _rank_of() -> dict[float, int]:
    return {z: rank for rank, z in enumerate(_normals())}


def _ranks(column: list[float]) -> list[int]:
    ranks = _rank_of()
    return [ranks[z] for z in column]


def _columns() -> Iterator[list[float]]:
    """Columns of the hypercube, each the same slices in another order.

    Orders are shuffles by the minimal standard generator, multiplier 48271 (S. K. Park, K. W. Miller, P. K. Stockmeyer,
    Comm. ACM 36 (1993) no. 7, 105-110), begun at 1.
    """
    state = 1
    while True:
        column = list(_normals())
        for last in range(POINTS - 1, 0, -1):
            state = state * 48271 % 2147483647
            other = state % (last + 1)
            column[last], column[other] = column[other], column[last]
        yield column
