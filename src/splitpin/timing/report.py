"""All there is to say about the times of one visit, in whole seconds, for the terminal and for other programs alike."""

from dataclasses import dataclass
from typing import NamedTuple

import splitpin
from splitpin.planning import Planned
from splitpin.timing.breakdown import Breakdown, breakdown
from splitpin.timing.estimate import Estimate, estimate
from splitpin.timing.pace import Pace
from splitpin.timing.practice import total_by_units, unit_time
from splitpin.timing.replanning import Stop
from splitpin.timing.savings import savings
from splitpin.timing.spread import Spread
from splitpin.timing.while_there import additions

PERCENTILES = (50, 80, 90, 95)
QUESTIONS = 2_000  # how often each plan for "while you are there" may ask whether to stop


class SpreadRow(NamedTuple):
    """One time: `within` gives the seconds that are enough in so many of 100 visits."""

    name: str
    mean_s: int
    sd_s: int
    within: dict[str, int]


class Booking(NamedTuple):
    """The elapsed time to book: enough in `at` of 100 visits; the others run over by this much on average."""

    at: float
    seconds: int
    chance_over: float
    mean_overrun_s: int


class Share(NamedTuple):
    """Expected hands-on seconds of one phase or kind of element."""

    id: str
    seconds: int


class CauseRow(NamedTuple):
    """Why time is spent: expected hands-on seconds, idle seconds of the plan, the steps, the rule with its place."""

    text: str
    hands_on_s: int
    idle_s: int
    steps: tuple[int, ...]
    because: str


class EventRow(NamedTuple):
    """What may go wrong: chance a visit, seconds each time, the steps that can bring it, what it uses up by title."""

    id: str
    title: str
    chance: float
    each_s: int
    parts: dict[str, str]
    steps: tuple[int, ...]
    origin: str


class SavingRow(NamedTuple):
    """A component out of everybody's way or a joint in no time, and the standard seconds saved at least."""

    change: str
    id: str
    title: str
    saves_s: int
    proved: bool


class AdditionRow(NamedTuple):
    """Another task on the plant: standard seconds it adds, and takes alone."""

    task: str
    component: str
    phrase: str
    adds_s: int
    alone_s: int
    proved: bool


class UnitsRow(NamedTuple):
    """The same job on several like units: expected hands-on seconds of all and of the last, by the unit model."""

    units: int
    rate: float
    total_s: int
    last_s: int
    without_learning_s: int


class FactorRow(NamedTuple):
    """A circumstance of the site that was counted in, and where its figures come from."""

    id: str
    title: str
    origin: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeReport:
    """The times of one visit. `plan_*` are the plan's own means, before allowance, site, pace and events."""

    splitpin: str
    job: str
    title: str
    assembly: str
    assembly_title: str
    status: str
    gap_s: int
    people: int
    plan_hands_on_s: int
    plan_waiting_s: int
    plan_elapsed_s: int
    times: tuple[SpreadRow, ...]
    booking: Booking
    visits: int
    pace_log_mean: float
    pace_log_sd: float
    allowance: float
    allowance_basis: str
    site: tuple[FactorRow, ...]
    phases: tuple[Share, ...]
    kinds: tuple[Share, ...]
    site_s: int
    events_s: int
    causes: tuple[CauseRow, ...]
    events: tuple[EventRow, ...]
    savings: tuple[SavingRow, ...]
    while_there: tuple[AdditionRow, ...] | None  # None where it was not asked for
    units: UnitsRow | None  # likewise


def time_report(
    planned: Planned,
    *,
    at: float = 80,
    pace: Pace | None = None,
    while_there: bool = False,
    units: tuple[int, float] | None = None,
    stop: Stop | None = None,
) -> TimeReport:
    """The report of a planned job; ValueError where it has no steps.

    `at` (0 < at < 100) is the confidence to book at. `while_there` also plans every other task of the plant, twice.
    `units`: how many like units the job is done on (>= 1), and the learning rate (0 < rate <= 1).
    `stop`, polled, ends the planning of other tasks: those not reached are left out.
    Cost: at most 16 plans for the savings.
    """
    visit, plan = planned.visit, planned.plan
    if planned.course is None:
        raise ValueError(f"the plan of {plan.job} has no steps")
    found = estimate(planned, pace)
    where = breakdown(planned.course, found)
    return TimeReport(
        splitpin=splitpin.__version__,
        job=plan.job,
        title=plan.title,
        assembly=plan.assembly,
        assembly_title=plan.assembly_title,
        status=plan.status,
        gap_s=plan.gap_s,
        people=plan.people,
        plan_hands_on_s=plan.times.hands_on_s,
        plan_waiting_s=plan.times.waiting_s,
        plan_elapsed_s=plan.times.elapsed_s,
        times=_times(found),
        booking=_booking(found.elapsed, at),
        visits=found.visits,
        pace_log_mean=round(found.pace.log_mean, 4),
        pace_log_sd=round(found.pace.log_sd, 4),
        allowance=found.allowance.share,
        allowance_basis=found.allowance.basis,
        site=tuple(FactorRow(row.id, row.title, row.origin) for row in found.site.rows),
        phases=tuple(Share(phase, round(seconds)) for phase, seconds in where.phases.items()),
        kinds=tuple(Share(kind, round(seconds)) for kind, seconds in where.kinds.items()),
        site_s=round(where.site_s),
        events_s=round(where.events_s),
        causes=tuple(
            CauseRow(row.cause.text, round(row.hands_on_s), round(row.idle_s), row.steps, row.cause.because)
            for row in where.causes
        ),
        events=tuple(
            EventRow(
                row.id,
                row.title,
                round(row.chance, 4),
                round(row.each_s),
                {part: visit.library.parts[part].title for part in row.parts},
                row.steps,
                row.origin,
            )
            for row in found.events
        ),
        savings=tuple(
            SavingRow(row.change, row.id, row.title, round(row.saves_s), row.proved)
            for row in savings(planned, _hanging(found, where), stop=stop)
        ),
        while_there=tuple(
            AdditionRow(row.task, row.component, row.phrase, round(row.adds_s), round(row.alone_s), row.proved)
            for row in additions(planned, questions=QUESTIONS, stop=stop)
        )
        if while_there
        else None,
        units=None if units is None else _units(found.hands_on.mean, *units),
    )


def _units(first: float, units: int, rate: float) -> UnitsRow:
    total = total_by_units(first, rate, units)
    return UnitsRow(units, rate, round(total), round(unit_time(first, rate, units)), round(units * first))


def _times(found: Estimate) -> tuple[SpreadRow, ...]:
    rows = (
        ("hands-on", found.hands_on),
        ("waiting", found.waiting),
        ("elapsed", found.elapsed),
        ("person-hours", found.person_hours),
    )
    return tuple(
        SpreadRow(
            name,
            round(spread.mean),
            round(spread.sd),
            {str(p): round(spread.percentile(p)) for p in PERCENTILES},
        )
        for name, spread in rows
    )


def _booking(elapsed: Spread, at: float) -> Booking:
    seconds = elapsed.percentile(at)
    chance = 1 - at / 100
    return Booking(at, round(seconds), round(chance, 4), round(elapsed.expected_over(seconds) / chance))


def _hanging(found: Estimate, where: Breakdown) -> dict[str, float]:
    """Seconds by id: the elements of a joint or component, and what hangs from it as a cause."""
    hanging: dict[str, float] = {}
    for element in found.elements:
        hanging[element.what] = hanging.get(element.what, 0.0) + element.seconds
    for row in where.causes:
        name = row.cause.id.rsplit(":", 1)[-1]
        hanging[name] = hanging.get(name, 0.0) + row.hands_on_s + row.idle_s
    return hanging
