"""A visit run many times, seeded: the referee of the estimate. It shares the elements and the chances with it, nothing
else: every draw is made, every event tossed, and the schedule is walked act by act.
"""

from typing import NamedTuple

import numpy as np

from splitpin.planning import Planned
from splitpin.timing.elements import Element, elements_of_act
from splitpin.timing.events import occasions_of
from splitpin.timing.site import site_of

Array = np.ndarray[tuple[int], np.dtype[np.float64]]


class Runs(NamedTuple):
    """Seconds of each run."""

    hands_on: Array
    waiting: Array
    elapsed: Array


def simulate(planned: Planned, runs: int, seed: int) -> Runs:
    """The visit run this often."""
    random = np.random.Generator(np.random.PCG64(seed))
    visit, course = planned.visit, planned.course
    site = site_of(visit)
    assert course is not None
    times, spreads = visit.firm.times, visit.library.time_spreads
    share = times.allowance
    allowed = 1 + share if times.allowance_basis == "work-time" else 1 / (1 - share)
    factor = allowed * _lognormal(random, 1.0, spreads["pace"].log_sd, runs)
    events: dict[int, list[tuple[float, float, float]]] = {}
    for step, chance, event in occasions_of(course):
        mean = (event.min.low + 4 * event.min.mode + event.min.high) / 6 * 60
        sd = (event.min.high - event.min.low) / 6 * 60
        events.setdefault(step, []).append((chance, mean, float(np.sqrt(np.log(1 + (sd / mean) ** 2)))))
    drawn: dict[str, Array] = {}

    def seconds(element: Element) -> Array:
        if element.draw not in drawn:
            drawn[element.draw] = _lognormal(random, 1.0, element.log_sd, runs)
        on_site = 1.0
        for row in site.rows:
            on_site *= getattr(row, element.kind)
        return element.seconds * on_site * drawn[element.draw] * factor

    now = np.zeros(runs)
    hands_on = np.zeros(runs)
    ready: dict[tuple[str, ...], Array] = {}
    for element in site.once():
        taken = element.seconds * _lognormal(random, 1.0, element.log_sd, runs) * factor
        now, hands_on = now + taken, hands_on + taken
    for done in course.done:
        setup, content = np.zeros(runs), np.zeros(runs)
        for element in elements_of_act(done, course):
            if element.kind in ("tool", "move"):
                setup += seconds(element)
            else:
                content += seconds(element)
        for chance, mean, log_sd in events.get(done.steps[0].n, []):
            happens = random.random(runs) < chance
            content += happens * _lognormal(random, mean, log_sd, runs) * factor
        start = now
        for key in done.slot.waits_for:
            start = np.maximum(start, ready[key] - setup)
        now = start + setup + content
        hands_on = hands_on + setup + content
        if done.act.wait_s:
            ready[done.act] = now + _lognormal(random, done.act.wait_s, spreads["wait"].log_sd, runs)
    return Runs(hands_on, now - hands_on, now)


def _lognormal(random: np.random.Generator, mean: float, log_sd: float, runs: int) -> Array:
    return mean * np.exp(log_sd * random.standard_normal(runs) - log_sd**2 / 2)
