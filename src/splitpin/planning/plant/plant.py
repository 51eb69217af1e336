"""The plant of one visit, looked up: what holds what, what travels with what, which proofs belong to it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, TypeVar

from splitpin.hardware.fixing import Fixing
from splitpin.hardware.resolving import resolve
from splitpin.hardware.tools import Needs, choose, torque_tools
from splitpin.ordering.problem import closed_travel
from splitpin.planning.plant import elements
from splitpin.records.words import BENCH, FRAME

if TYPE_CHECKING:
    from splitpin.records.assembly import Circuit, Component, Isolation, Joint, Way
    from splitpin.records.catalogue import Boundary
    from splitpin.records.library import Library, Visit


Row = TypeVar("Row", "Circuit", "Component", "Joint")


class Plant:
    """Look-ups over one visit's assembly and library; all answers follow from the files, none changes anything."""

    def __init__(self, visit: Visit) -> None:
        self.visit = visit
        self.assembly = visit.assembly
        self.library: Library = visit.library
        # by id: no time and no choice may depend on the order of tables in a file
        self._components = _by_id(self.assembly.component)
        self._circuits = _by_id(self.assembly.circuit)
        self._joints = _by_id(self.assembly.joint)
        self._carried: dict[str, list[str]] = {}
        for component in self._components.values():
            if component.carried_by is not None:
                self._carried.setdefault(component.carried_by, []).append(component.id)
        self._fixings: dict[str, Fixing] = {}
        self._chosen: dict[Needs, tuple[str, ...]] = {}
        self._groups: dict[str, frozenset[str]] = {}
        self.positions = (*self.assembly.assembly.positions, BENCH)
        self.travel_s = _travel(self.assembly.assembly.positions, visit)
        firm = visit.firm
        self._owned = None if firm.tools is None else frozenset(firm.tools.owned)

    # -- components and what travels with them

    def component(self, name: str) -> Component:
        """The component of this id."""
        return self._components[name]

    @property
    def circuits(self) -> Iterable[Circuit]:
        """Every circuit, by id."""
        return self._circuits.values()

    def circuit(self, name: str) -> Circuit:
        """The circuit of this id."""
        return self._circuits[name]

    def group(self, component: Component) -> frozenset[str]:
        """The component and everything it carries, however deep."""
        known = self._groups.get(component.id)
        if known is None:
            inside = [component.id]
            for name in inside:
                inside += self._carried.get(name, [])
            known = self._groups[component.id] = frozenset(inside)
        return known

    def load_kg(self, component: Component) -> float:
        """The mass that moves when the component moves, to the gram."""
        return round(sum(elements.mass(self._components[name]) for name in sorted(self.group(component))), 3)

    def carries(self, name: str) -> bool:
        """Whether anything travels with the component of this id."""
        return name in self._carried

    def carriers(self, component: Component) -> tuple[Component, ...]:
        """What the component travels with, the nearest first."""
        return tuple(self._chain(component.id)[1:])

    def carriers_of(self, component: Component) -> set[str]:
        """Everything that the component travels with, however far up."""
        return {carrier.id for carrier in self.carriers(component)}

    def carriers_of_both(self, joint: Joint) -> set[str]:
        """What both ends of a joint travel with, an end that is itself the carrier included."""
        inside = [{end, *self.carriers_of(self._components[end])} for end in joint.between if end != FRAME]
        return set.intersection(*inside) if len(inside) == 2 else set()

    def moves_across(self, component: Component) -> tuple[Component, ...]:
        """What must come off a carrier that is replaced, because the new one does not bring it."""
        carried = self._carried.get(component.id, [])
        return tuple(self._components[name] for name in carried if name not in component.part_includes)

    def comes_with(self, component: Component) -> tuple[Component, ...]:
        """Everything that the new part of a component includes, in turn with what their new parts include."""
        found = [self._components[name] for name in component.part_includes]
        for one in found:
            found += [self._components[name] for name in one.part_includes]
        return tuple(found)

    def closed_by(self, component: Component) -> Component | None:
        """What keeps anybody without its licence from lifting the component: itself, or what carries it."""
        return next((one for one in self._chain(component.id) if one.closed_to is not None), None)

    def shut_by(self, joint: Joint) -> Component | None:
        """The closed component at an end of the joint, or around an end, that does not leave this joint open to all."""
        around = [one for end in joint.between if end != FRAME for one in self._chain(end)]
        return next((one for one in around if one.closed_to is not None and joint.id not in one.open_joints), None)

    def _chain(self, name: str) -> list[Component]:
        found = [self._components[name]]
        while (carrier := found[-1].carried_by) is not None:
            found.append(self._components[carrier])
        return found

    # -- joints

    def joint(self, name: str) -> Joint:
        """The joint of this id."""
        return self._joints[name]

    def ends(self, joint: Joint) -> str:
        """`motor head to volute`; the fixed part is the frame."""
        frame = self.assembly.assembly.frame
        names = [frame if name == FRAME else self._components[name].title for name in joint.between]
        return f"{names[0]} to {names[1]}"

    def fixing(self, joint: Joint) -> Fixing:
        """The joint's hardware, resolved; reading has already refused what cannot be."""
        known = self._fixings.get(joint.hardware)
        if known is None:
            found = resolve(joint.hardware, self.library)
            assert isinstance(found, Fixing), joint.hardware
            known = self._fixings[joint.hardware] = found
        return known

    def parts_faces(self, joint: Joint) -> bool:
        """Whether the joint's seal goes on between faces that only come apart when one of them is moved."""
        return joint.seal is not None and self.library.seals[joint.seal].placed == "before-positioning"

    def holding(self, component: Component) -> tuple[Joint, ...]:
        """The joints with exactly one end inside the component's group, by id."""
        group = self.group(component)
        return tuple(j for j in self._joints.values() if (j.between[0] in group) != (j.between[1] in group))

    def undone_by(self, component: Component, way: Way) -> tuple[Joint, ...]:
        """The joints that a way undoes, by id."""
        if way.undoes is None:
            return self.holding(component)
        return tuple(joint for joint in self._joints.values() if joint.id in way.undoes)

    def inside(self, joint: Joint, carrier: Component) -> bool:
        """Whether both ends of the joint travel with this carrier."""
        group = self.group(carrier)
        return joint.between[0] in group and joint.between[1] in group

    def carriers_around(self, joint: Joint) -> tuple[Component, ...]:
        """The carriers inside whose groups the joint stays made, the innermost first."""
        if FRAME in joint.between:
            return ()
        one, other = (self._chain(end) for end in joint.between)
        shared = {carrier.id for carrier in other}
        return tuple(carrier for carrier in one if carrier.id in shared)

    # -- circuits, conditions, proofs

    def before_opening(self, circuit: Circuit) -> tuple[str, ...]:
        """The conditions that the circuit, or else its medium, wants before it is opened."""
        if circuit.before_opening is not None:
            return circuit.before_opening
        return self.library.media[circuit.medium].before_opening

    def isolations(self, circuit: Circuit) -> tuple[Isolation, ...]:
        """The circuit's ways to be isolated that the job does not rule out."""
        return tuple(way for way in circuit.isolate if way.by not in self.visit.job.job.rule_out)

    def guarded(self, component: Component, medium: str) -> tuple[Circuit, ...]:
        """The circuits of a medium that a guard bares and that can be isolated: those with a joint on it or behind it,
        however deep; all of the medium where the file shows none there. Our own rule.
        """
        hidden = {component.id}
        while more := {one.id for one in self.assembly.component if self._stands_behind(one, hidden)} - hidden:
            hidden |= more
        there = {
            joint.circuit
            for joint in self.assembly.joint
            if hidden & {*joint.between, *(name for names in joint.behind for name in names)}
        }
        circuits = [circuit for circuit in self.circuits if circuit.medium == medium]
        found = [circuit for circuit in circuits if circuit.id in there]
        return tuple(circuit for circuit in found or circuits if circuit.isolate)

    def _stands_behind(self, component: Component, front: set[str]) -> bool:
        named = {name for way in component.ways for names in way.behind for name in names}
        return bool(front & {component.carried_by, *named})

    def proofs_of(self, joint: Joint) -> tuple[str, ...]:
        """The proofs that opening a joint brings."""
        if joint.circuit is None:
            return ()
        circuit = self.circuit(joint.circuit)
        if circuit.after_remaking is not None:
            return circuit.after_remaking
        return self.library.media[circuit.medium].after_remaking

    def proofs_of_lifting(self, component: Component) -> tuple[str, ...]:
        """The proofs that lifting a component brings: its boundaries' and its own."""
        names = [name for b in self.forms(component) for name in self.library.boundaries[b].after_remaking]
        return tuple(dict.fromkeys([*names, *component.proves]))

    def forms(self, component: Component) -> tuple[str, ...]:
        """The boundaries that lifting a component disturbs: its own and those of all it carries."""
        group = self.group(component)
        return tuple(dict.fromkeys(b for c in self._components.values() if c.id in group for b in c.forms))

    def opened_after(self, component: Component, condition: str) -> tuple[Boundary, ...]:
        """The boundaries that lifting a component disturbs and that want this condition before."""
        rows = [self.library.boundaries[name] for name in self.forms(component)]
        return tuple(row for row in rows if condition in row.before_opening)

    def cautions_of_lifting(self, component: Component) -> tuple[str, ...]:
        """The cautions of what a lift bares or opens."""
        guarded = [caution for m in component.guards for caution in self.library.media[m].cautions]
        formed = [caution for b in self.forms(component) for caution in self.library.boundaries[b].cautions]
        return (*guarded, *formed)

    def cautions_of_opening(self, joint: Joint) -> tuple[str, ...]:
        """The cautions of the medium that a joint holds back."""
        return () if joint.circuit is None else self.library.media[self.circuit(joint.circuit).medium].cautions

    def already(self, name: str) -> bool:
        """Whether the job says that the condition holds."""
        return name in self.visit.job.job.already

    # -- tools and positions

    def owned(self, tool: str) -> bool:
        """Whether the firm has the tool; a firm without a list has all."""
        return self._owned is None or tool in self._owned

    def chosen(self, needs: Needs) -> tuple[str, ...]:
        """A tool for each need out of what the firm owns, none for two needs; where it owns none, the best to bring."""
        known = self._chosen.get(needs)
        if known is None:
            choice = choose(needs, self._owned)
            known = self._chosen[needs] = tuple(sorted({*choice.chosen, *choice.missing}))
        return known

    def torque_tools(self, torque_nm: float | None) -> tuple[str, ...]:
        """The tool that sets this torque: owned before not, then the narrowest range; none without a torque."""
        able = () if torque_nm is None else torque_tools(torque_nm, self.library.tools)
        return tuple(sorted(able, key=lambda tool: not self.owned(tool))[:1])

    def pickup_s(self, tool: str) -> int:
        """Seconds to pick up a tool that is not in the hands."""
        own = self.library.tools[tool].pickup_s
        return self.visit.firm.times.pickup_s if own is None else own

    def least_way_to(self, position: str) -> int:
        """The shortest way to a position from any other; 0 for the one where the engineer starts."""
        index = self.positions.index(position)
        if index == 0:
            return 0
        return min(row[index] for other, row in enumerate(self.travel_s) if other != index)


def _by_id(rows: Iterable[Row]) -> dict[str, Row]:
    return {row.id: row for row in sorted(rows, key=lambda row: row.id)}


def _travel(named: tuple[str, ...], visit: Visit) -> tuple[tuple[int, ...], ...]:
    positions = (*named, BENCH)
    default = visit.firm.times.move_s
    given = {frozenset(move.between): move.seconds for move in visit.assembly.move}
    return closed_travel(
        tuple(tuple(0 if a == b else given.get(frozenset({a, b}), default) for b in positions) for a in positions)
    )
