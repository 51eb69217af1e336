"""`splitpin record`."""

from typing import Annotated

import typer

from splitpin.cli.actual import visited
from splitpin.cli.arguments import ActualFile, JobFile, StoreFile
from splitpin.cli.office import opened, store_of
from splitpin.cli.saying import answer
from splitpin.history import past_visit
from splitpin.planning.asked.expand import expand
from splitpin.timing import estimate
from splitpin.units import clock, counted


def run(
    job: JobFile,
    actual: ActualFile,
    store: StoreFile = None,
    replace: Annotated[bool, typer.Option("--replace", help="In place of this job's visit of that day.")] = False,
) -> None:
    """Keep what a visit really took: later estimates and diagnoses learn from it."""
    done, found = visited(job, actual)
    visit, plan = found.visit, found.plan
    tasks = tuple((wish.component.id, wish.do) for wish in expand(visit).wanted if wish.component is not None)
    planned_s = estimate(found).planned_s
    past = past_visit(done, visit.job, plan, planned_s, tasks + tuple((f.component, f.task) for f in done.found))
    where = store_of(job, store)
    with opened(where, create=True) as visits:
        visits.add(past, replace=replace)
        kept = len(visits.visits())
    against = f"{clock(round(past.planned_s))} planned" if past.planned_s > 0 else "no planned work: it teaches no pace"
    answer(
        f"{past.job} of {past.date}: {clock(round(past.taken_s))} hands-on against {against}. "
        f"{where} holds {counted(kept, 'visit')}."
    )
