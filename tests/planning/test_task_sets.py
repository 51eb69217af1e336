"""Random sets of tasks on every assembly: planned, accepted by the check (which runs in `plan_visit`), and in time.

Seconds of the process on one core. By hand: the figures asked for are those of a job booked on the telephone.
"""

import random
import time
from collections.abc import Iterator

import pytest
from tests.bundled import LIBRARY
from tests.planning.test_every_task import FIRM, tasks_of, within

from splitpin.planning import plan_visit
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import Plan


def visits(name: str, size: int, count: int) -> Iterator[Visit]:
    """So many sets of this size of the assembly's tasks; the same ones whenever they are asked for."""
    tasks = list(tasks_of(LIBRARY.assemblies[name]))
    chance = random.Random(f"{name} {size}")
    head = {"reference": "T", "title": "test", "assembly": name, "people": 2}
    for _ in range(count):
        picked = chance.sample(tasks, min(size, len(tasks)))
        yield Visit(JobFile.model_validate({"format": 1, "job": head, "task": picked}), FIRM, LIBRARY)


def planned(visit: Visit, seconds: float) -> tuple[Plan, float]:
    """The plan and the seconds that it took the process."""
    begun = time.process_time()
    plan = plan_visit(visit, stop=within(seconds)).plan
    return plan, time.process_time() - begun


@pytest.mark.parametrize("size", [2, 3, 5])
@pytest.mark.parametrize("name", sorted(LIBRARY.assemblies))
def test_a_set_of_tasks_is_planned_and_accepted(name: str, size: int) -> None:
    for visit in visits(name, size, 1):
        plan, _ = planned(visit, 1)
        assert plan.steps
        asked = {task.component or task.joint for task in visit.job.task}
        assert len(plan.tasks) + len(plan.refused) == len(visit.job.task) >= len(asked)


LIMITS = {2: 0.2, 3: 0.2, 5: 0.2, 8: 1.0, 12: 5.0}


@pytest.mark.benchmark
@pytest.mark.parametrize("size", LIMITS)
def test_sets_of_tasks_are_proved_in_time(size: int) -> None:
    rows = []
    for name in sorted(LIBRARY.assemblies):
        for visit in visits(name, size, 10):
            plan, seconds = planned(visit, 2 * LIMITS[size])
            rows.append((seconds, plan.gap_s / max(1, plan.times.elapsed_s)))
    late = [row for row in rows if row[0] > LIMITS[size] and row[1] > 0.02]
    assert len(late) <= len(rows) // 20, sorted(late)
