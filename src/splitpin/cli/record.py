"""`splitpin record`."""

from pathlib import Path

from splitpin.cli.office import opened, store_of
from splitpin.cli.planned import planned
from splitpin.cli.saying import answer, say, stop_on_errors
from splitpin.history import past_visit
from splitpin.planning.asked.expand import expand
from splitpin.reading.actual import disagreements, read_actual
from splitpin.timing import estimate
from splitpin.units import clock


def run(job: Path, actual_path: Path, *, store: Path | None, replace: bool) -> None:
    """Keep what a visit really took beside what was planned."""
    actual, notices = read_actual(actual_path)
    say(notices)
    stop_on_errors(notices)
    assert actual is not None  # a file without errors gives a visit
    found = planned(job, None)
    visit, plan = found.visit, found.plan
    wrong = disagreements(actual, visit)
    say(wrong)
    stop_on_errors(wrong)
    tasks = tuple((wish.component.id, wish.do) for wish in expand(visit).wanted if wish.component is not None)
    planned_s = estimate(found).planned_s
    past = past_visit(actual, visit.job, plan, planned_s, tasks + tuple((f.component, f.task) for f in actual.found))
    where = store_of(job, store)
    with opened(where, create=True) as visits:
        visits.add(past, replace=replace)
        kept = len(visits.visits())
    against = f"{clock(round(past.planned_s))} planned" if past.planned_s > 0 else "no planned work: it teaches no pace"
    answer(
        f"{past.job} of {past.date}: {clock(round(past.taken_s))} hands-on against {against}. "
        f"{where} holds {kept} visit{'' if kept == 1 else 's'}."
    )
