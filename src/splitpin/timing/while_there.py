"""What every other task on the same plant would add to a visit, against what it takes as a visit of its own.

By hand: the electrodes alone take 38 min, for the casing, the gas and the proofs come with them; on a visit that opens
the casing anyway they add 4.
"""

from collections.abc import Iterator
from typing import NamedTuple

from splitpin.planning import Planned
from splitpin.planning.asked.expand import expand, offered
from splitpin.records.assembly import Component
from splitpin.records.job import Task
from splitpin.records.library import Visit
from splitpin.timing.replanning import Stop, planned_again, standard_seconds, with_tasks


class Addition(NamedTuple):
    """One task: seconds it adds, seconds it takes alone, and whether all three plans behind it are proved best."""

    component: str
    task: str
    phrase: str
    adds_s: float
    alone_s: float
    proved: bool


def additions(planned: Planned, *, questions: int, stop: Stop | None = None) -> tuple[Addition, ...]:
    """Every task that the plant offers and the job does not ask for, what adds least beside what it takes alone first.

    Left out is what only others may open and what cannot be planned. Cost: two plans for each task, each searched until
    it has asked `questions` times whether to stop; once `stop` says so, the tasks that are left are left out.
    """
    plan, visit = planned.plan, planned.visit
    if not plan.steps:
        return ()
    base = standard_seconds(plan.times, visit)
    found = []
    for component, do in _others(visit):
        if stop is not None and stop():
            break
        task = Task(do=do, component=component.id)
        together = planned_again(with_tasks(visit, (*visit.job.task, task)), questions, stop)
        alone = planned_again(with_tasks(visit, (task,), alone=True), questions, stop)
        if together is not None and alone is not None:
            adds = standard_seconds(together.plan.times, visit) - base
            proved = plan.status == together.plan.status == alone.plan.status == "proved"
            own = standard_seconds(alone.plan.times, visit)
            found.append(Addition(component.id, do, _phrase(do, component), adds, own, proved))
    return tuple(sorted(found, key=lambda row: (row.adds_s / max(row.alone_s, 1.0), row.component, row.task)))


def _others(visit: Visit) -> Iterator[tuple[Component, str]]:
    wishes = expand(visit)
    asked = {(w.component.id, w.do) for w in wishes.wanted if w.component is not None}
    refused = {(item.component.id, item.wanted.do) for item in wishes.refused}
    for component in visit.assembly.component:
        if component.closed_to is None:
            for do in offered(component):
                if (component.id, do) not in asked | refused:
                    yield component, do


def _phrase(do: str, component: Component) -> str:
    return f"{do.replace('-', ' ')} the {component.title}"
