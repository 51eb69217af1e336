"""The plant's own points in the steps of a procedure: which they are, and what the step says of them.

What a step operates it names by role; which points that are, the circuits say that its condition isolates. By hand:
"Close the pump valves on both sides." on a set with two of them is "Close the upper service valve and the lower
service valve.", and both are set to closed. Where the plant lists no such point, the words of the procedure stay.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.planning.plant.doings import Doings, Make, Undo
from splitpin.planning.plant.plant import Plant
from splitpin.records.plan_rows import StepPoint

if TYPE_CHECKING:
    from splitpin.records.assembly import Circuit
    from splitpin.records.points import Point, PointRole
    from splitpin.records.procedure import Condition, ProcedureStep


@dataclass(frozen=True, slots=True)
class Operated:
    """The circuits that a procedure is about, and the condition, where it makes or releases one."""

    circuits: tuple[Circuit, ...]
    condition: str | None = None
    isolated: tuple[Circuit, ...] = ()

    def points(self, role: PointRole, plant: Plant) -> tuple[Point, ...]:
        """The points that do this for one of the circuits; with a condition, those of the ways that make it."""
        listed = plant.assembly.point
        found: dict[str, Point] = {}
        if role == "isolates":
            of_supply = (point for point in listed if point.kind in ("supply", "switch"))
            found.update((p.id, p) for p in of_supply for c in self.isolated if self._serves(p, c, role, plant))
        for circuit in self.circuits:
            if role in ("feeds", "drives"):
                names = (circuit.feeds if role == "feeds" else circuit.drivers) or ()
                found.update((point.id, point) for point in listed if point.id in names)
                continue
            found.update((point.id, point) for point in listed if self._serves(point, circuit, role, plant))
        return tuple(found.values())

    def _serves(self, point: Point, circuit: Circuit, role: PointRole, plant: Plant) -> bool:
        if point.circuit != circuit.id or point.role != role:
            return False
        name = self.condition
        ways = [way.by for way in circuit.isolate if name is not None and plant.rests_on(way, name)]
        return not ways or point.by is None or point.by in ways

    def said(self, step: ProcedureStep, plant: Plant) -> tuple[str, tuple[StepPoint, ...]]:
        """The step's text with its points in it, and what it sets them to."""
        text, set_to = step.text, []
        for operate in step.operate:
            points = self.points(operate.role, plant)
            if points and operate.words is not None:
                text = text.replace(operate.words, together(point.title for point in points), 1)
            set_to += [StepPoint(id=point.id, title=point.title, to=operate.to) for point in points]
        return text, tuple(set_to)


def about(condition: Condition, plant: Plant, opened: frozenset[str]) -> Operated:
    """A condition is about the circuits that it isolates, or else about those that ask for it or for what is made
    after it; of these the ones that are opened, where any is.
    """
    own = [c for c in plant.circuits if any(plant.rests_on(way, condition.id) for way in c.isolate)]
    asking = own or [circuit for circuit in plant.circuits if condition.id in _asked(circuit, plant)]
    circuits = [c for c in asking if c.id in opened] or asking
    return Operated(tuple(circuits), condition.id, tuple(own))


def circuits_opened(doings: Doings) -> frozenset[str]:
    """The circuits of which a joint is undone."""
    return frozenset(d.joint.circuit for d in doings if isinstance(d, Undo) and d.joint.circuit is not None)


def opened_points(doings: Doings, plant: Plant) -> tuple[Point, ...]:
    """The points of circuits, normally shut, that a condition of these opens and shuts again."""
    opened = circuits_opened(doings)
    found: dict[str, Point] = {}
    for doing in doings:
        if isinstance(doing, Make) and not doing.already:
            named = about(doing.condition, plant, opened)
            for step in (*doing.condition.make, *doing.condition.release):
                for operate in step.operate:
                    if operate.to in ("open", "cracked", "joined"):
                        found.update((point.id, point) for point in named.points(operate.role, plant))
    shut = [point for point in found.values() if point.normally in ("closed", "parted")]
    return tuple(point for point in shut if point.circuit is not None)


def driven(doings: Doings, plant: Plant) -> tuple[tuple[Make, Make], ...]:
    """Pairs of conditions: one holds off what drives a circuit from outside, the other isolates that circuit."""
    made = [doing for doing in doings if isinstance(doing, Make)]
    opened = circuits_opened(doings)
    pairs: list[tuple[Make, Make]] = []
    for holding in made:
        steps = holding.condition.make
        if not any(operate.role == "drives" for step in steps for operate in step.operate):
            continue
        off = {point.id for point in about(holding.condition, plant, opened).points("drives", plant)}
        driving = [circuit for circuit in plant.circuits if off & {*(circuit.drivers or ())}]
        isolating = {way.makes for circuit in driving for way in circuit.isolate}
        pairs += [(holding, other) for other in made if other.name in isolating]
    return tuple(pairs)


def points_looked_at(proof: str, doings: Doings, plant: Plant) -> tuple[Point, ...]:
    """Those of them that this proof looks at beside its joints."""
    points = opened_points(doings, plant)
    return tuple(p for p in points if p.circuit is not None and leak_proof(plant.circuit(p.circuit), plant) == proof)


def leak_proof(circuit: Circuit, plant: Plant) -> str | None:
    """The proof that looks at the joints of a circuit, the first of those that opening it brings."""
    proofs = plant.after_remaking(circuit)
    return next((name for name in proofs if plant.library.proofs[name].names_joints), None)


def together(titles: Iterable[str]) -> str:
    """`the flow valve and the return valve`."""
    *rest, last = (f"the {title}" for title in titles)
    return f"{', '.join(rest)} and {last}" if rest else last


def _asked(circuit: Circuit, plant: Plant) -> set[str]:
    """What the circuit is isolated by or wants before it is opened, with all that comes before that."""
    names = (*(way.makes for way in circuit.isolate), *plant.before_opening(circuit))
    return {one for name in names for one in _before(name, plant)}


def _before(name: str, plant: Plant) -> set[str]:
    """A condition and all that it is made after."""
    found = {name}
    for earlier in plant.library.conditions[name].after:
        found |= _before(earlier, plant)
    return found
