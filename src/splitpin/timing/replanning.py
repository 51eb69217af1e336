"""The same visit with something changed, planned again: how plans are compared, and how long each may be searched for.

Compared are standard minutes: the plan's hands-on seconds with the allowance, and its idle seconds. Site, pace and
events are left out: they change little between two plans for the same plant.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from splitpin.planning import Planned, plan_visit
from splitpin.records.assembly import Assembly
from splitpin.records.job import Task
from splitpin.records.library import Library, Visit
from splitpin.records.plan import Times
from splitpin.timing.allowance import allowance_of

Stop = Callable[[], bool]


@dataclass(slots=True)
class Patience:
    """A search may ask this often whether to stop. Counted, not timed: the same files give the same answer, unless
    `stop` ends the whole command."""

    questions: int
    stop: Stop | None = None

    def __call__(self) -> bool:
        """Whether the search must stop."""
        self.questions -= 1
        return self.questions < 0 or (self.stop is not None and self.stop())


def planned_again(visit: Visit, questions: int, stop: Stop | None = None) -> Planned | None:
    """The visit planned, proved or best found; None where the visit has none or a task of it is refused."""
    planned = plan_visit(visit, stop=Patience(questions, stop))
    return planned if planned.plan.status != "impossible" else None


def standard_seconds(times: Times, visit: Visit) -> float:
    """Hands-on time with the firm's allowance, and idle time."""
    return times.hands_on_s * allowance_of(visit.firm.times).factor + times.waiting_s


def with_tasks(visit: Visit, tasks: tuple[Task, ...], *, alone: bool = False) -> Visit:
    """The visit with these tasks; `alone`: without its templates."""
    head = visit.job.job.model_copy(update={"template": (), "symptoms": ()}) if alone else visit.job.job
    return Visit(visit.job.model_copy(update={"job": head, "task": tasks}), visit.firm, visit.library, visit.place)


def with_assembly(visit: Visit, assembly: Assembly, library: Library) -> Visit:
    """The visit to another make of the plant; `library` may hold hardware of its own."""
    assemblies = {**library.assemblies, assembly.assembly.id: assembly}
    return Visit(visit.job, visit.firm, replace(library, assemblies=assemblies), visit.place)
