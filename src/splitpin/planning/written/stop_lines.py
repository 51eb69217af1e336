"""What lies beside the work and stays shut, each with what is not touched of it.

By hand: a pump beside a sealed refrigerant circuit is changed: the circuit is untouched and at the same position, so it
is printed with its stop line.
"""

from __future__ import annotations

from splitpin.planning.asked.expand import Wanted
from splitpin.planning.plant.doings import Doings, Lift
from splitpin.planning.plant.plant import Plant
from splitpin.records.plan import Step
from splitpin.records.plan_rows import StopLine

_OPENS = ("undo", "take", "work")


def stop_lines(
    steps: tuple[Step, ...], doings: Doings, plant: Plant, wanted: tuple[Wanted, ...]
) -> tuple[StopLine, ...]:
    """In file order; a component closed to a licence that has no words of its own gets a sentence from that."""
    where = {step.position for step in steps if step.action in _OPENS}
    lifted = {one for doing in doings if isinstance(doing, Lift) for one in plant.group(doing.component)}
    touched = lifted | {wish.component.id for wish in wanted if wish.component is not None}
    found = []
    for component in plant.assembly.component:
        if component.id in touched or component.position not in where:
            continue
        text = component.stop_line
        if text is None and component.closed_to is not None:
            person = plant.library.licences[component.closed_to].person
            text = f"Leave the {component.title} shut: only {person} may open it."
        if text is not None:
            found.append(StopLine(component=component.id, text=text))
    return tuple(found)
