"""What was opened, put back or changed, and the proofs that the keys of the laws bring for it.

Reading of the definitions. A joint is changed when one of its ends is new or was adjusted, else put back; so is a
lifted component. What comes with a new part is new. These proofs, and those of examinations, functions, joints of
their own and facts of the place, may stand in a plan; that they must is for the laws to say.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.planning.check.access import Lift
from splitpin.planning.check.definitions import Asked
from splitpin.planning.check.history import History

if TYPE_CHECKING:
    from splitpin.records.disturbance import Brings, Disturbance


@dataclass(frozen=True, slots=True)
class Disturbed:
    """A joint, component or boundary that was disturbed in one of the three ways, and a proof which that brings."""

    thing: str
    kind: Disturbance
    proof: str


def new_parts(history: History, doing: tuple[Asked, ...]) -> frozenset[str]:
    """Components that were replaced, and those that came with them."""
    found = {task.component for task in doing if task.do == "replace" and task.component is not None}
    components = history.definitions.components
    return frozenset(found | {one for component in found for one in components[component].part_includes})


def adjusted(doing: tuple[Asked, ...]) -> frozenset[str]:
    """Components on which a task was done that changes them."""
    return frozenset(
        task.component for task in doing if task.component is not None and task.work is not None and task.work.changes
    )


def disturbed(history: History, lifted: tuple[Lift, ...], doing: tuple[Asked, ...]) -> Iterator[Disturbed]:
    """Every proof that `brings` asks for, with the thing and the way it was disturbed."""
    definitions, library = history.definitions, history.definitions.library
    changed = new_parts(history, doing) | adjusted(doing)
    for name in history.did["undo"]:
        joint = definitions.joints[name]
        brings = [joint.brings]
        if joint.circuit is not None:
            brings.append(library.media[definitions.circuits[joint.circuit].medium].brings)
        yield from _brought(name, brings, changed=bool(set(joint.between) & changed))
    for name in sorted({lift.component for lift in lifted} | adjusted(doing)):
        component = definitions.components[name]
        brings = [component.brings, *(library.boundaries[one].brings for one in component.forms)]
        yield from _brought(name, brings, changed=name in changed)


def _brought(thing: str, brings: list[Brings], *, changed: bool) -> Iterator[Disturbed]:
    for one in brings:
        yield from (Disturbed(thing, "opened", proof) for proof in one.opened)
        if changed:
            yield from (Disturbed(thing, "changed", proof) for proof in one.changed)
        else:
            yield from (Disturbed(thing, "put_back", proof) for proof in one.put_back)


def may_prove(history: History, lifted: tuple[Lift, ...], doing: tuple[Asked, ...]) -> Iterator[str]:
    """Proofs that a plan may have for the sake of a law."""
    definitions = history.definitions
    yield from (one.proof for one in disturbed(history, lifted, doing))
    yield from (proof for joint in history.did["undo"] for proof in definitions.joints[joint].proofs)
    yield from (proof for one in definitions.assembly.examination for proof in one.proofs)
    yield from (function.proof for function in definitions.assembly.function)
    yield from (proof for fact in definitions.visit.job.site.facts for proof in definitions.library.facts[fact].proofs)
