"""Planning is quick: every example job at once, and every task of the catalogue within a minute all together."""

import statistics
import time
from pathlib import Path

import pytest
from tests.planning.test_every_task import JOBS, LIBRARY, tasks_of, visit_for

from splitpin.planning import plan_visit
from splitpin.reading.visit import read_visit

pytestmark = pytest.mark.benchmark


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_an_example_job_is_planned_in_a_tenth_of_a_second(path: Path) -> None:
    visit, _ = read_visit(path)
    assert visit is not None
    seconds = []
    for _ in range(5):
        start = time.process_time()
        plan_visit(visit)
        seconds.append(time.process_time() - start)
    assert statistics.median(seconds) < 0.1


def test_the_whole_catalogue_is_planned_in_a_minute_and_all_of_it_proved() -> None:
    start = time.process_time()
    unproved = set()
    for name, assembly in sorted(LIBRARY.assemblies.items()):
        for task in tasks_of(assembly):
            limit = time.process_time() + 2
            plan = plan_visit(visit_for(name, task), stop=lambda limit=limit: time.process_time() > limit).plan
            if plan.status == "bounded":
                unproved.add(" ".join((name, *task.values())))
    assert time.process_time() - start < 60
    assert not unproved
