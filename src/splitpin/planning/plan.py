"""The pipeline, in reading order: expand the tasks, open, order, put back, prove, and write the plan down."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

import splitpin
from splitpin.access.causes import why_not
from splitpin.notices import Notice, in_order
from splitpin.notices.own_check import refuse
from splitpin.planning import checked
from splitpin.planning.asked.emergency import Intake, intake
from splitpin.planning.asked.expand import Wishes, expand, noted
from splitpin.planning.best.choose import Choice, Clash, choose
from splitpin.planning.opening import closed
from splitpin.planning.opening.needs import open_graph
from splitpin.planning.planned import Planned
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.habits import in_force, in_their_order
from splitpin.planning.written import impossible
from splitpin.planning.written.write import Written, write
from splitpin.records.plan import Plan, PlanNotice, Refusal, Status, TaskNote, Times

if TYPE_CHECKING:
    from splitpin.records.library import Visit


def plan_visit(visit: Visit, *, stop: Callable[[], bool] | None = None, said: tuple[Notice, ...] = ()) -> Planned:
    """The plan of one visit and its course, proved best unless `stop` (polled during the search) ends it early.

    `said` are notices from reading that belong on the plan. A job that asks only for what it may not, or that cannot
    be done, gives a plan with the status "impossible" and the reasons among its notices; one that speaks of an
    emergency, or comes from a caller whom nobody asked about one, gives in place of a plan what is to be done or
    asked. What its own check refuses does not leave: that raises OwnCheckError. Cost grows with the number of real
    choices and with how loosely the acts are ordered; the largest example plans in well under a second.
    """
    told = intake(visit)
    if told.stops:
        return _plan(visit, Wishes((), (), ()), [*said, *told.notices()], None, None, told)
    plant = Plant(visit)
    wishes = closed.apart(expand(visit), plant)
    notices = [*said, *told.notices(), *wishes.notices, *impossible.closed(wishes.refused)]
    if not wishes.wanted:
        if not wishes.refused:
            symptoms = visit.job.job.symptoms
            what = "names symptoms and no task" if symptoms else "asks for no task"
            hint = "add [[task]] with what the diagnosis led to" if symptoms else "add [[task]] or a template"
            notices.append(Notice("nothing-to-do", f"the job {what}: there is nothing to plan", visit.place, hint))
        return _plan(visit, wishes, notices, None, None, told)
    graph = open_graph(plant, wishes.wanted)
    choice = choose(graph, plant, wishes.wanted, stop, in_force(visit.firm))
    if isinstance(choice, Clash):
        _refuse(visit, checked.faults_of_clash(choice))
        return _plan(visit, wishes, [*notices, *impossible.in_a_circle(choice, plant)], None, None, told)
    if choice is None:
        causes = why_not(graph.problem())
        if not causes:
            return _plan(visit, wishes, [*notices, impossible.at_odds_with_itself(graph, plant)], None, None, told)
        _refuse(visit, checked.faults_of_causes(graph.problem(), causes))
        return _plan(visit, wishes, [*notices, *impossible.no_way(causes, graph, plant)], None, None, told)
    _refuse(visit, checked.faults_of_choice(choice, graph.problem(), plant))
    written = write(choice, graph, plant, wishes.wanted)
    _refuse(visit, checked.faults_of_course(written.course))
    if choice.gap_s:
        message = f"stopped at the limit: the plan is at most {choice.gap_s} s from best"
        notices.append(Notice("not-proved", message, visit.place))
    return _plan(visit, wishes, [*notices, *written.notices], choice, written, told)


def _plan(
    visit: Visit,
    wishes: Wishes,
    notices: list[Notice],
    choice: Choice | None,
    written: Written | None,
    told: Intake,
) -> Planned:
    assembly = visit.assembly.assembly
    if written is None or choice is None or wishes.refused:
        status: Status = "impossible"
    else:
        status = "bounded" if choice.gap_s else "proved"
    plan = Plan(
        splitpin=splitpin.__version__,
        job=visit.job.job.reference,
        title=visit.job.job.title,
        assembly=assembly.id,
        assembly_title=assembly.title,
        status=status,
        habits=() if choice is None else tuple(habit.id for habit in in_their_order(in_force(visit.firm))),
        gap_s=choice.gap_s if choice else 0,
        stops=told.pages(),
        ruled_out=told.ruled_out,
        tasks=tuple(wish.phrase for wish in wishes.wanted),
        task_notes=tuple(TaskNote(task=task, note=note) for task, note in noted(visit, wishes)),
        refused=tuple(Refusal(task=item.wanted.phrase, reason=item.reason) for item in wishes.refused),
        times=Times(hands_on_s=0, waiting_s=0, elapsed_s=0),
        people=1,
        notices=tuple(PlanNotice.of(notice) for notice in in_order(notices)),
    )
    if written is None:
        planned = Planned(visit, plan, None)
    else:
        planned = Planned(visit, replace(plan, **written.fields()), written.course)
    _refuse(visit, checked.faults_of_plan(planned))
    return planned


def _refuse(visit: Visit, faults: Iterable[str]) -> None:
    refuse("plan", faults, visit.place, splitpin.__version__)
