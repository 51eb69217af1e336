"""Step 1: what the job asks for, as tasks on single components and joints.

Templates and roles become components; what only a certified person may do is set apart with its reason.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.notices import Notice, Place
from splitpin.units import listed

if TYPE_CHECKING:
    from splitpin.records.assembly import Assembly, Component, Joint, Work
    from splitpin.records.job import Task
    from splitpin.records.library import Library, Visit

REPLACE = "replace"
RENEW_SEAL = "renew-seal"


@dataclass(frozen=True, slots=True)
class Wanted:
    """One task on one component or joint, the work it takes, and where it was asked for."""

    do: str
    work: Work
    component: Component | None
    joint: Joint | None
    asked: str  # "the job", or the template's title
    place: Place

    @property
    def phrase(self) -> str:
        """`replace the circulating pump`, `renew the seal of the head screws`."""
        if self.joint is not None:
            return f"renew the seal of the {joint_name(self.joint)}"
        assert self.component is not None
        return f"{self.do.replace('-', ' ')} the {self.component.title}"


@dataclass(frozen=True, slots=True)
class Refused:
    """A task that only the holder of a licence may do, for the component that is closed."""

    wanted: Wanted
    component: Component
    licence: str

    @property
    def reason(self) -> str:
        """`only a certified person may open it`, or what would have to be opened on the way."""
        if self.component is self.wanted.component:
            return f"only {self.licence} may open it"
        return f"it opens the {self.component.title}, and only {self.licence} may open that"


@dataclass(frozen=True, slots=True)
class Wishes:
    """The tasks to plan, in the order of the job; the refused ones; and what is to be said about them."""

    wanted: tuple[Wanted, ...]
    refused: tuple[Refused, ...]
    notices: tuple[Notice, ...]


def joint_name(joint: Joint) -> str:
    """The joint's title, or its id as words."""
    return joint.title or joint.id.replace("-", " ")


def offered(component: Component) -> tuple[str, ...]:
    """The tasks that a component offers, sorted: its `work`, and `replace` when it names a part."""
    names = set(component.work)
    if component.part is not None:
        names.add(REPLACE)
    return tuple(sorted(names))


def expand(visit: Visit) -> Wishes:
    """Every task of the job on its components, each once, first asked first.

    A component asked for twice with the same task counts once. Roles that a template names and the assembly does not
    have are notes. Reading has already refused unknown names and tasks that are not offered.
    """
    assembly, job, usual = visit.assembly, visit.job, visit.library.usual_work
    notices: list[Notice] = []
    wanted: dict[tuple[str, str], Wanted] = {}

    def add(do: str, component: Component, asked: str, place: Place) -> None:
        work = component.work.get(do) or usual[do]
        wanted.setdefault((do, component.id), Wanted(do, work, component, None, asked, place))

    for task in job.task:
        if task.joint is not None:
            joint = next(joint for joint in assembly.joint if joint.id == task.joint)
            work = usual[RENEW_SEAL]
            wanted.setdefault((RENEW_SEAL, joint.id), Wanted(RENEW_SEAL, work, None, joint, "the job", task.place))
        for component in _named(task, assembly):
            add(task.do, component, "the job", task.place)
    for name in job.job.template:
        template = visit.library.templates[name]
        for line in template.task:
            fitted = [component for component in assembly.component if component.role == line.role]
            able = [component for component in fitted if line.do in offered(component)]
            if not able:
                notices.append(_not_fitted(line.role, line.do, bool(fitted), template.template.title, line.place))
            for component in able:
                add(line.do, component, template.template.title, line.place)
    may, refused = _apart(tuple(wanted.values()), visit.library)
    return Wishes(may, refused, tuple(notices))


def noted(visit: Visit, wishes: Wishes) -> tuple[tuple[str, str], ...]:
    """The notes of the job's tasks in the order of the job, each after what it is noted on; refused tasks too."""
    every = (*wishes.wanted, *(row.wanted for row in wishes.refused))
    found = []
    for task in visit.job.task:
        if task.note is not None:
            named = _named(task, visit.assembly)
            about = [
                wish.phrase
                for wish in every
                if wish.do == task.do
                and (wish.component in named if wish.joint is None else wish.joint.id == task.joint)
            ]
            found.append((listed(about), task.note))
    return tuple(found)


def _named(task: Task, assembly: Assembly) -> list[Component]:
    return [
        component
        for component in assembly.component
        if component.id == task.component or (task.role is not None and component.role == task.role)
    ]


def _not_fitted(role: str, do: str, fitted: bool, template: str, place: Place) -> Notice:
    if fitted:
        message = f"{template}: no {role} of this assembly offers the task {do}"
    else:
        message = f"{template}: this assembly has no {role}, so the task {do} falls away"
    return Notice("role-not-fitted", message, place)


def _apart(wanted: tuple[Wanted, ...], library: Library) -> tuple[tuple[Wanted, ...], tuple[Refused, ...]]:
    may = tuple(w for w in wanted if w.component is None or w.component.closed_to is None)
    refused = tuple(
        Refused(w, w.component, library.licences[w.component.closed_to].person)
        for w in wanted
        if w.component is not None and w.component.closed_to is not None
    )
    return may, refused
