"""How long a visit takes: hands-on, waiting, elapsed, person-hours, each with its spread.

Hands-on time is (elements on this site + events) x allowance x pace. The sum has exact moments, for each case of what
went wrong; the pace multiplies them; each case becomes a moved log-normal with the same three moments. Waits know
neither pace nor allowance. By hand: 100 s of work, allowance 15 % on work time, no spread but a pace of log-sd 0.2:
mean 115 s, median 115 exp(-0.02) = 112.7 s, 90th percentile 112.7 exp(0.2 x 1.2816) = 145.7 s.
"""

from dataclasses import dataclass, replace

from splitpin.planning import Planned
from splitpin.timing.allowance import Allowance, allowance_of
from splitpin.timing.elapsed import Leg, hands_of, legs_of, on_site
from splitpin.timing.elements import Element
from splitpin.timing.events import Occasion, cases_of, occasions_of
from splitpin.timing.moments import total
from splitpin.timing.pace import Pace, usual_pace
from splitpin.timing.site import Site, site_of
from splitpin.timing.spread import Mixture, Spread, certain, mixture


@dataclass(frozen=True, slots=True)
class PossibleEvent:
    """One thing that may go wrong: the chance that it does so at least once, the cost each time, parts, and where."""

    id: str
    title: str
    chance: float
    expected_s: float  # over all visits, at planning pace, allowance included
    each_s: float  # when it happens once, likewise
    parts: tuple[str, ...]
    steps: tuple[int, ...]
    origin: str


@dataclass(frozen=True, slots=True)
class Estimate:
    """The times of one visit in seconds, and what they rest on.

    `waiting` is the time on site with idle hands; hands-on and waiting make up elapsed. `person_hours` is elapsed time
    times the people of the plan, in seconds: whoever has come stays to the end. `planned_s` is the mean hands-on time
    at pace 1: the denominator of a recorded pace. `visits` are the records that the pace rests on.
    """

    hands_on: Spread
    waiting: Spread
    elapsed: Spread
    person_hours: Spread
    planned_s: float
    people: int
    visits: int
    pace: Pace
    allowance: Allowance
    site: Site
    elements: tuple[Element, ...]  # on this site, before allowance and pace; step 0 is what the site costs once
    events: tuple[PossibleEvent, ...]


def estimate(planned: Planned, pace: Pace | None = None) -> Estimate:
    """The estimate of a planned job; one without steps takes no time.

    `pace` comes from records; without it, the usual one. The plan's own seconds stay as they are. Cost: a fraction of
    planning, and 8192 runs through the legs where the plan has waits.
    """
    visit, plan, course = planned.visit, planned.plan, planned.course
    pace = usual_pace(visit.library) if pace is None else pace
    allowance = allowance_of(visit.firm.times)
    site = site_of(visit)
    occasions = () if course is None else occasions_of(course)
    legs = () if course is None else legs_of(course, site, occasions)
    elements = tuple(element for leg in legs for element in leg.elements)
    hands_on = _hands_on(elements, occasions, pace, allowance)
    elapsed, waiting = _on_site(legs, hands_on, pace, allowance, visit.library.time_spreads["wait"].log_sd)
    return Estimate(
        hands_on=hands_on,
        waiting=waiting,
        elapsed=elapsed,
        person_hours=elapsed.times(plan.people),
        planned_s=hands_on.mean / pace.mean,
        people=plan.people,
        visits=pace.visits,
        pace=pace,
        allowance=allowance,
        site=site,
        elements=elements,
        events=_possible(occasions, allowance),
    )


def _hands_on(
    elements: tuple[Element, ...], occasions: tuple[Occasion, ...], pace: Pace, allowance: Allowance
) -> Mixture:
    work = hands_of(elements)
    factor = pace.moments.scaled(allowance.factor)
    return mixture([(case.chance, total((work, case.cost)).times(factor)) for case in cases_of(occasions)])


def _on_site(
    legs: tuple[Leg, ...], hands_on: Mixture, pace: Pace, allowance: Allowance, wait_log_sd: float
) -> tuple[Spread, Spread]:
    """Elapsed and waiting; where nothing waits, elapsed is hands-on."""
    if not any(leg.awaits for leg in legs):
        return hands_on, certain(0.0)
    return on_site(legs, pace, allowance.factor, wait_log_sd)


def _possible(occasions: tuple[Occasion, ...], allowance: Allowance) -> tuple[PossibleEvent, ...]:
    """Events with their occasions together, the likeliest first, then by id."""
    found: dict[str, PossibleEvent] = {}
    for step, chance, event in occasions:
        each = Occasion(step, chance, event).cost.mean * allowance.factor
        known = found.get(event.id) or PossibleEvent(
            event.id, event.title, 0.0, 0.0, each, event.parts, (), event.origin
        )
        found[event.id] = replace(
            known,
            chance=1 - (1 - known.chance) * (1 - chance),
            expected_s=known.expected_s + chance * each,
            steps=(*known.steps, step),
        )
    return tuple(sorted(found.values(), key=lambda event: (-event.chance, event.id)))
