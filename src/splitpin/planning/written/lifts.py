"""How many lift a heavy component, and why: by its mass, from the guideline filter for lifting by one person.

The filter asks where the hands are and whether the load is close; the catalogue knows only the mass. So the plan says
in which band of heights one person may lift at all, and that work outside the filter's scope wants a second person or
an aid. By hand: 24 kg is within the figure for men between elbow and knuckle height alone (25 kg), and above every
figure for women (16 kg at most). Up to 10 kg, the men's figure for the worst height, the step says nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin import units
from splitpin.calculations.people import FILTER_KG, best_guideline_kg
from splitpin.notices import Notice
from splitpin.planning.plant.doings import Doings, Lift
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.wording import cite

if TYPE_CHECKING:
    from splitpin.records.assembly import Component

SILENT_KG = min(FILTER_KG["men", "close"])
SOURCE = "HSE guideline filter, L23 and INDG143, figures from a public copy of its diagram"
_EDGES = ("", "shoulder", "elbow", "knuckle", "mid lower leg", "floor")  # above and below each zone of the filter
_OUTSIDE = "Kneeling, cramped or with one hand: a second person or an aid."


class Lifts:
    """The lifts of one opening, looked up by component."""

    def __init__(self, doings: Doings, plant: Plant) -> None:
        self.plant = plant
        self._lifts = {doing.component.id: doing for doing in doings if isinstance(doing, Lift)}

    def words(self, name: str, people: int) -> str | None:
        """What the step that takes or fits the component says of its weight; None where that is nothing special."""
        kg = self._carried_kg(name)
        if kg is None or (kg <= SILENT_KG and people == 1):
            return None
        mass = f"{units.number(kg)} kg"
        if people > 1:
            return f"{mass}: {people} people or a lifting aid"
        band, women = _band(kg, "men"), _band(kg, "women")
        if band is None:
            return f"{mass}: above the guideline for one person; a second person or a lifting aid"
        said = f"{mass}: one person only {band}, close to the body"
        if women is None:
            said += f" (women: above their guideline of {best_guideline_kg('women')} kg)"
        elif women != band:
            said += f" (women: {women})"
        return f"{said}. {_OUTSIDE}"

    def reasons(self, name: str, people: int) -> tuple[str, ...]:
        """Why so many; nothing where the step says nothing of it."""
        if self.words(name, people) is None:
            return ()
        component, way = self._lifts[name].component, self._lifts[name].way
        if people > 1 and way.people is not None:
            return (cite(f"the catalogue says that lifting the {component.title} takes {people} people", way.place),)
        men, women = best_guideline_kg("men"), best_guideline_kg("women")
        return (
            f"one person lifts at most {men} kg (men) or {women} kg (women), and that in the best place ({SOURCE})",
        )

    def notices(self) -> tuple[Notice, ...]:
        """One for each lift that is heavier than every row of handling."""
        rows = self.plant.library.handling
        return tuple(
            _too_heavy(lift.component, kg, rows[-1].up_to_kg)
            for name, lift in self._lifts.items()
            if (kg := self._carried_kg(name)) is not None and rows and kg > rows[-1].up_to_kg
            if lift.way.people is None
        )

    def _carried_kg(self, name: str) -> float | None:
        """What hands carry: nothing where it only moves aside."""
        lift = self._lifts.get(name)
        return None if lift is None or lift.ends == "aside" else self.plant.load_kg(lift.component)


def _band(kg: float, who: str) -> str | None:
    """The heights between which the filter leaves the mass to one person; None where there are none."""
    able = [zone for zone, most in enumerate(FILTER_KG[who, "close"]) if kg <= most]
    if not able:
        return None
    top, bottom = _EDGES[able[0]], _EDGES[able[-1] + 1]
    return f"between {top} and {bottom} height" if top else "at any height"


def _too_heavy(component: Component, kg: float, most: float) -> Notice:
    message = (
        f"the {component.title} ({units.number(kg)} kg) is heavier than every row of handling ({most:g} kg at most)"
    )
    return Notice(
        "no-handling", message, component.place, "plan this lift by itself: people, aid and time are not known"
    )
