"""The suspects of a job's symptoms, each with the plan that checks it and the plan that cures it.

Several symptoms have one cause: a suspect that all of them name has the product of its likelihoods, as for independent
signs of one fault. Where no suspect is common to all, every suspect stays, with the sum. Our own rule.
"""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import NamedTuple

from splitpin.planning import plan_visit
from splitpin.records.assembly import Component, Suspect, Symptom, Work
from splitpin.records.base import Spread
from splitpin.records.job import Task
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

Cause = tuple[str, str]  # component, task
CHECK = "check-suspect"  # the task that a check is planned as


class Case(NamedTuple):
    """One suspect: its row, its share of the likelihood, what it would take to check it and to cure it."""

    row: Suspect
    component: Component
    likelihood: float  # of all cases together 1
    origin: str
    symptoms: tuple[Symptom, ...]
    checking: Plan
    repair: Plan


def symptoms_of(visit: Visit) -> tuple[Symptom, ...]:
    """The symptoms that the job names, in its order. Reading has refused unknown ones."""
    rows = {symptom.id: symptom for symptom in visit.assembly.symptom}
    return tuple(rows[name] for name in visit.job.job.symptoms)


def likelihoods(symptoms: tuple[Symptom, ...], counted: Mapping[str, Mapping[Cause, float]]) -> dict[Cause, float]:
    """The share of each cause, in file order; they sum to 1.

    `counted` may hold shares learnt from records, by symptom; they then stand in place of the file's.
    """
    shares = []
    for symptom in symptoms:
        rows = {(row.component, row.task): row.likelihood for row in symptom.suspects}
        rows = {cause: counted.get(symptom.id, {}).get(cause, share) for cause, share in rows.items()}
        total = sum(rows.values())
        shares.append({cause: share / total for cause, share in rows.items()})
    causes = list(dict.fromkeys(cause for row in shares for cause in row))
    common = [cause for cause in causes if all(cause in row for row in shares)]
    joint = dict.fromkeys(common, 1.0)
    for row in shares:
        for cause in common:
            joint[cause] *= row[cause]
    if not common:
        joint = {cause: sum(row.get(cause, 0.0) for row in shares) for cause in causes}
    total = sum(joint.values())
    return {cause: share / total for cause, share in joint.items()}


def cases(
    visit: Visit,
    counted: Mapping[str, Mapping[Cause, float]] | None = None,
    stop: Callable[[], bool] | None = None,
) -> tuple[Case, ...]:
    """Every suspect of the job's symptoms, likeliest first; each is planned twice, so time grows with their number."""
    symptoms = symptoms_of(visit)
    components = {component.id: component for component in visit.assembly.component}
    found = []
    for cause, share in likelihoods(symptoms, counted or {}).items():
        naming = tuple(s for s in symptoms if any((row.component, row.task) == cause for row in s.suspects))
        row = next(row for row in naming[0].suspects if (row.component, row.task) == cause)
        component = components[row.component]
        checking = plan_visit(_check_visit(visit, row, naming[0]), stop=stop).plan
        repair = plan_visit(with_task(visit, row), stop=stop).plan
        found.append(Case(row, component, share, naming[0].origin, naming, checking, repair))
    return tuple(sorted(found, key=lambda case: -case.likelihood))


def with_task(visit: Visit, row: Suspect) -> Visit:
    """The visit with the task that cures the suspect in place of the symptoms, after the tasks that are known."""
    task = Task(do=row.task, component=row.component, place=row.place)
    return _with(visit, (*visit.job.task, task), visit.job.job.template)


def _check_visit(visit: Visit, row: Suspect, symptom: Symptom) -> Visit:
    """The visit that does nothing but check the suspect. What need not come out may be looked at by anyone."""
    work = Work(
        needs=row.check.needs,
        min=Spread(low=row.check.min, mode=row.check.min, high=row.check.min),
        steps=row.check.steps or (f"Check the {_component(visit, row).title}.",),
        source=symptom.source,
        basis=symptom.basis,
        place=row.place,
    )
    changed = {
        "work": {CHECK: work},
        "closed_to": None if row.check.needs != "out" else _component(visit, row).closed_to,
    }
    assembly = visit.assembly.model_copy(
        update={
            "component": tuple(
                component.model_copy(update=changed) if component.id == row.component else component
                for component in visit.assembly.component
            )
        }
    )
    library = replace(visit.library, assemblies={**visit.library.assemblies, assembly.assembly.id: assembly})
    looked = Visit(visit.job, visit.firm, library, visit.place)
    return _with(looked, (Task(do=CHECK, component=row.component, place=row.place),), ())


def _component(visit: Visit, row: Suspect) -> Component:
    return next(component for component in visit.assembly.component if component.id == row.component)


def _with(visit: Visit, tasks: tuple[Task, ...], template: tuple[str, ...]) -> Visit:
    head = visit.job.job.model_copy(update={"symptoms": (), "template": template})
    job = visit.job.model_copy(update={"job": head, "task": tasks})
    return Visit(job, visit.firm, visit.library, visit.place)
