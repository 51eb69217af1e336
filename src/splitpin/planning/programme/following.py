"""What follows work: the proofs that each disturbance brings, the examinations of the plant, the functions touched.

By hand: a new pump on a set that was stopped. Its union was opened and its body is another: both bring the look along
the flow; the set was stopped, so it is seen to run; of its functions the call for heating is made, for the pump serves
it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from splitpin.notices import Place
from splitpin.planning.asked.expand import REPLACE, Wanted
from splitpin.planning.plant.doings import Doing, Doings, Lift, Make, Undo, Work
from splitpin.planning.plant.plant import Plant

if TYPE_CHECKING:
    from splitpin.records.assembly import Component
    from splitpin.records.disturbance import Brings, Disturbance, Examination, Function


class Followed(NamedTuple):
    """Proofs that follow a thing, after these doings, by a rule; `kind` says how it was disturbed where that counts."""

    thing: str
    proofs: tuple[str, ...]
    doings: tuple[Doing, ...]
    rule: str
    place: Place
    kind: Disturbance | None = None


class WorkDone:
    """What a visit lifts, undoes and changes; all lists in the order of the doings and of the file."""

    def __init__(self, doings: Doings, plant: Plant, wanted: tuple[Wanted, ...]) -> None:
        self.plant = plant
        self.lifts = [doing for doing in doings if isinstance(doing, Lift)]
        self.undone = [doing for doing in doings if isinstance(doing, Undo)]
        self.made = [doing for doing in doings if isinstance(doing, Make) and not doing.already]
        self.tasks = [doing for doing in doings if isinstance(doing, Work)]
        named = [(wish, wish.component) for wish in wanted if wish.component is not None]
        replaced = [component for wish, component in named if wish.do == REPLACE]
        self.new = {c.id for one in replaced for c in (one, *plant.comes_with(one))}
        self.adjusted = {component.id for wish, component in named if wish.work.changes}
        self.touched = {c for lift in self.lifts for c in plant.group(lift.component)}
        self.touched |= {component.id for _, component in named}

    def disturbed(self) -> Iterator[Followed]:
        """What was opened, put back like for like, or changed, with the proofs that each of these brings."""
        changed = self.new | self.adjusted
        library = self.plant.library
        for doing in self.undone:
            joint = doing.joint
            brings = [joint.brings]
            if joint.circuit is not None:
                brings.append(library.media[self.plant.circuit(joint.circuit).medium].brings)
            is_changed = not changed.isdisjoint(joint.between)
            yield from _brought(joint.id, doing.phrase, brings, (doing,), joint.place, changed=is_changed)
        for component in self._components():
            brings = [component.brings, *(library.boundaries[name].brings for name in component.forms)]
            name = f"the {component.title}"
            its = self._doings_on(component.id)
            yield from _brought(component.id, name, brings, its, component.place, changed=component.id in changed)

    def followed(self) -> Iterator[Followed]:
        """The examinations that this work asks for, and the proofs in which functions that it touched are called."""
        for examination in self.plant.assembly.examination:
            if doings := tuple(dict.fromkeys(self._occasions(examination))):
                rule = f"after this work: {examination.title}"
                yield Followed(examination.id, examination.proofs, doings, rule, examination.place)
        for function in self.functions():
            rule = f"the work touched what serves {function.title}"
            yield Followed(function.id, (function.proof,), (*self.tasks,), rule, function.place)

    def functions(self) -> tuple[Function, ...]:
        """The modes and safety devices that the work touched."""
        circuits = {doing.joint.circuit for doing in self.undone}
        return tuple(
            function
            for function in self.plant.assembly.function
            if not self.touched.isdisjoint(function.components) or not circuits.isdisjoint(function.circuits)
        )

    def _components(self) -> list[Component]:
        ids = {lift.component.id for lift in self.lifts} | self.adjusted
        return [component for component in self.plant.assembly.component if component.id in ids]

    def _doings_on(self, component: str) -> tuple[Doing, ...]:
        lifts = (lift for lift in self.lifts if lift.component.id == component)
        works = (w for w in self.tasks if w.wanted.component is not None and w.wanted.component.id == component)
        return (*lifts, *works)

    def _occasions(self, examination: Examination) -> Iterator[Doing]:
        """The doings after which the examination is due."""
        of, when = set(examination.of), examination.when
        for lift in self.lifts:
            forms = set(lift.component.forms)
            if "anything-opened" in when and (not of or of & {lift.component.id, *forms}):
                yield lift
            if "boundary-disturbed" in when and forms & (of or forms):
                yield lift
        if "anything-opened" in when and not of:
            yield from self.undone
        for name in sorted((self.new | self.adjusted) & (of or self.new | self.adjusted)):
            lost = name in self.new and bool(self.plant.component(name).holds_settings)
            if "part-changed" in when or ("settings-lost" in when and lost):
                yield from self._doings_on(name)
        if "stopped" in when:
            yield from (made for made in self.made if "running" in made.condition.takes_away)


def _brought(
    thing: str, name: str, brings: list[Brings], doings: tuple[Doing, ...], place: Place, *, changed: bool
) -> Iterator[Followed]:
    for one in brings:
        if one.opened:
            yield Followed(thing, one.opened, doings, f"{name} was opened", place, "opened")
        if changed and one.changed:
            yield Followed(thing, one.changed, doings, f"{name} was changed", place, "changed")
        if not changed and one.put_back:
            yield Followed(thing, one.put_back, doings, f"{name} was put back like for like", place, "put_back")


def turned_before(doings: Doings, plant: Plant, wanted: tuple[Wanted, ...]) -> dict[Lift, list[Component]]:
    """What turns and was touched, by the first cover to go on again in front of it."""
    done = WorkDone(doings, plant, wanted)
    found: dict[Lift, list[Component]] = {}
    for component in plant.assembly.component:
        if component.rotates and component.id in done.touched:
            front = {cover for way in component.ways for names in way.behind for cover in names}
            covers = [lift for lift in done.lifts if lift.component.id in front]
            if covers:
                found.setdefault(covers[-1], []).append(component)
    return found
