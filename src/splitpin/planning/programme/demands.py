"""Step 5: the proofs that what was disturbed demands, each once, with what brought it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from splitpin.notices import Place
from splitpin.planning.asked.expand import REPLACE, Wanted
from splitpin.planning.plant.doings import Doing, Doings, Lift, Undo, Work
from splitpin.planning.plant.plant import Plant

if TYPE_CHECKING:
    from splitpin.records.assembly import Joint


@dataclass(slots=True)
class Demand:
    """One proof: the doings that brought it, and the rule of each in words with its place."""

    proof: str
    doings: list[Doing] = field(default_factory=list)
    rules: list[tuple[str, Place]] = field(default_factory=list)

    @property
    def joints(self) -> tuple[Joint, ...]:
        """The joints that brought it, in the order of the file."""
        return tuple(doing.joint for doing in self.doings if isinstance(doing, Undo))


def demands(doings: Doings, plant: Plant, wanted: tuple[Wanted, ...]) -> dict[str, Demand]:
    """The union of what joints, boundaries, components and tasks demand, by proof id, in the order in which they were
    met.
    """
    found: dict[str, Demand] = {}

    def bring(names: tuple[str, ...], doing: Doing, rule: str, place: Place) -> None:
        for name in names:
            demand = found.setdefault(name, Demand(name))
            demand.doings.append(doing)
            demand.rules.append((rule, place))

    replaced = {wish.component.id for wish in wanted if wish.component is not None and wish.do == REPLACE}
    for doing in doings:
        if isinstance(doing, Undo):
            joint = doing.joint
            if joint.circuit is not None:
                circuit = plant.circuit(joint.circuit)
                medium = plant.library.media[circuit.medium]
                rule = f"a joint of the {circuit.title or medium.title} circuit was opened"
                place = circuit.place if circuit.after_remaking is not None else medium.place
                bring(plant.proofs_of(joint), doing, rule, place)
        elif isinstance(doing, Lift):
            component = doing.component
            for name in plant.forms(component):
                boundary = plant.library.boundaries[name]
                rule = f"the {boundary.title} was opened with the {component.title}"
                bring(boundary.after_remaking, doing, rule, boundary.place)
            bring(component.proves, doing, f"the {component.title} was disturbed", component.place)
            for new in plant.comes_with(component) if component.id in replaced else ():
                rule = f"the {new.title} came with the new {component.title}"
                its_own = new.work[REPLACE].proofs if REPLACE in new.work else ()
                bring((*new.proves, *its_own), doing, rule, new.place)
        elif isinstance(doing, Work):
            wish = doing.wanted
            bring(wish.work.proofs, doing, f"the task was to {wish.phrase}", wish.work.place)
            if wish.component is not None and wish.do == REPLACE:
                bring(wish.component.proves, doing, f"the {wish.component.title} was replaced", wish.component.place)
    return found
