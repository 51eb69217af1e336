"""Tasks that are not offered, and jobs that ask for nothing."""

from collections.abc import Iterable, Iterator
from typing import Any

from splitpin.notices import Notice, Place
from splitpin.notices.nearest import listed, nearest
from splitpin.reading.agreement import RENEW_SEAL
from splitpin.reading.crossrefs import assembly_names
from splitpin.reading.declared import Declaration, Declared, Names
from splitpin.reading.document import Document
from splitpin.records.assembly import Suspect
from splitpin.records.job import JobFile, Task

REPLACE = "replace"


def task_notices(document: Document, names: Declared) -> list[Notice]:
    """Tasks of a job, and of the suspects of an assembly, that the thing they name does not offer."""
    inside = assembly_names(document, names)
    notices: list[Notice] = []
    for kind, steps, table in document.tables() if inside else ():
        key = {Task: "do", Suspect: "task"}.get(kind)
        task = table.get(key) if key else None
        if key and isinstance(task, str):
            notices += _not_offered(task, table, document.toml.place(*steps, key), inside or {})
    if document.kind is JobFile:
        notices += _nothing_to_do(document)
    return notices


def offered(component: dict[str, Any]) -> tuple[str, ...]:
    """The tasks that a component's table offers, sorted: its `work`, and `replace` where it names a part."""
    work = component.get("work")
    own = {REPLACE} if "part" in component else set()
    return tuple(sorted(own | set(work if isinstance(work, dict) else ())))


def _not_offered(task: str, table: dict[str, Any], place: Place, inside: Names) -> Iterator[Notice]:
    joint = _named(table.get("joint"), inside.get("joint", {}))
    if joint is not None:
        yield from _not_on_joint(task, str(table["joint"]), joint, place)
    component = _named(table.get("component"), inside.get("component", {}))
    if component is not None:
        yield from _not_on([(str(table["component"]), component)], task, place)
    role = table.get("role")
    if isinstance(role, str):
        fitted = inside.get("component", {}).items()
        yield from _not_on([(name, one) for name, one in fitted if one.owner.get("role") == role], task, place)


def _named(name: Any, known: dict[str, Declaration]) -> Declaration | None:
    return known.get(name) if isinstance(name, str) else None


def _not_on(components: Iterable[tuple[str, Declaration]], task: str, place: Place) -> Iterator[Notice]:
    for name, declaration in components:
        tasks = offered(declaration.owner)
        if task not in tasks:
            yield Notice("task-not-offered", f'`{name}` does not offer the task "{task}"', place, _offers(task, tasks))


def _offers(task: str, tasks: tuple[str, ...]) -> str:
    near = nearest(task, tasks)
    if near is not None:
        return f"did you mean `{near}`?"
    return f"it offers {listed(tasks, 'and')}" if tasks else "it offers no task at all"


def _not_on_joint(task: str, name: str, joint: Declaration, place: Place) -> Iterator[Notice]:
    if task != RENEW_SEAL:
        hint = f'a joint offers only "{RENEW_SEAL}"'
        yield Notice("task-not-offered", f'the joint `{name}` does not offer the task "{task}"', place, hint)
    elif "seal" not in joint.owner:
        yield Notice("task-not-offered", f"the joint `{name}` has no seal to renew", place)


def _nothing_to_do(job: Document) -> Iterator[Notice]:
    head = job.toml.data.get("job")
    asks = isinstance(head, dict) and any(head.get(key) for key in ("template", "symptoms", "report"))
    if isinstance(head, dict) and not asks and not job.toml.data.get("task"):
        hint = "give it a [[task]], a `template` or `symptoms`"
        yield Notice("nothing-to-do", "the job asks for nothing", job.toml.place("job"), hint)
