"""Step 2: everything that could have to come open, as one AND/OR graph with a cost at each node.

A node is something done once (lift this component this way, undo this joint, make this condition, do this task) or a
state that several doings give (this joint undone, this component clear, this circuit isolated). States cost nothing.
By hand: a pump behind a casing held by two screws: doing `replace pump` needs the state `pump out`, which needs
`lift pump`, which needs `pump screws undone` and `casing clear`; `casing clear` needs `lift casing` and that `casing
screws undone`. Five doings.
"""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from splitpin.access import problem as access
from splitpin.hardware.fixing import Fixing
from splitpin.planning.asked.expand import REPLACE, Wanted
from splitpin.planning.plant import elements
from splitpin.planning.plant.doings import (
    Aside,
    Bared,
    Charge,
    Clear,
    ClearAtBench,
    Isolated,
    Lift,
    LiftAtBench,
    Make,
    Moved,
    Node,
    Out,
    Undo,
    UndoAtBench,
    Undone,
    Work,
)
from splitpin.planning.plant.plant import Plant
from splitpin.records.words import FRAME

if TYPE_CHECKING:
    from splitpin.records.assembly import Circuit, Component, Joint

Alternatives = tuple[tuple[Node, ...], ...]


@dataclass(slots=True)
class Graph:
    """The nodes by key, in the order in which they were met; `problem` numbers them that way."""

    needs: dict[Node, list[Alternatives]] = field(default_factory=dict)
    seconds: dict[Node, tuple[int, int]] = field(default_factory=dict)  # to strip, to refit
    charges: dict[Node, frozenset[Charge]] = field(default_factory=dict)
    charge_costs: dict[Charge, int] = field(default_factory=dict)
    targets: list[Node] = field(default_factory=list)

    @property
    def keys(self) -> tuple[Node, ...]:
        """Every node's key by its number."""
        return tuple(self.needs)

    def problem(self) -> access.AccessProblem:
        """The graph in plain numbers."""
        number = {key: index for index, key in enumerate(self.needs)}
        charge = {key: index for index, key in enumerate(self.charge_costs)}
        nodes = tuple(
            access.Node(
                cost=sum(self.seconds[key]),
                needs=tuple(tuple(frozenset(number[k] for k in keys) for keys in need) for need in needs),
                charges=frozenset(charge[key] for key in self.charges[key]),
            )
            for key, needs in self.needs.items()
        )
        targets = tuple((frozenset({number[key]}),) for key in self.targets)
        return access.AccessProblem(nodes, tuple(self.charge_costs.values()), targets)


def open_graph(plant: Plant, wanted: tuple[Wanted, ...]) -> Graph:
    """The graph of a visit: only what the wanted tasks can reach through needs is in it."""
    return _Builder(plant, wanted).graph


class _Builder:
    """Meets each node once, depth first from the tasks; `add` returns at once when a node is known, so circles end."""

    def __init__(self, plant: Plant, wanted: tuple[Wanted, ...]) -> None:
        self.plant = plant
        self.graph = Graph()
        for number, wish in enumerate(wanted):
            self.graph.targets.append(self._work(number, wish))

    def _enter(self, key: Node, off_s: int = 0, on_s: int = 0, charges: Iterable[Charge] = ()) -> list[Alternatives]:
        """The (empty) list of needs of a new node."""
        needs: list[Alternatives] = []
        self.graph.needs[key] = needs
        self.graph.seconds[key] = (off_s, on_s)
        self.graph.charges[key] = frozenset(charges)
        return needs

    def _known(self, key: Node) -> bool:
        return key in self.graph.needs

    # -- tasks

    def _work(self, number: int, wanted: Wanted) -> Node:
        key = Work(number, wanted)
        component = wanted.component
        proofs = list(wanted.work.proofs)
        if component is not None and wanted.do == REPLACE:
            proofs += component.proves
        needs = self._enter(key, elements.work_seconds(wanted.work), 0, self._proofs(proofs))
        if wanted.joint is not None:
            needs.append(((self._undone(wanted.joint),),))
            if self.plant.parts_faces(wanted.joint):
                ends = [self.plant.component(end) for end in wanted.joint.between if end != FRAME]
                needs.append(tuple(way for end in ends for way in self._leavings(end, ends=("out", "aside"))))
        elif component is not None:
            if wanted.work.needs == "out":
                needs.append(((self._out(component),),))
            elif wanted.work.needs == "exposed":
                needs.append(self._exposed(component))
            if wanted.do == REPLACE:
                needs += [((self._out(c),),) for c in self.plant.moves_across(component)]
        needs += [((self._made(name),),) for name in wanted.work.conditions]
        return key

    def _exposed(self, component: Component) -> Alternatives:
        around = self.plant.carriers_of(component)
        in_place = [self._all_clear(names, around) for way in component.ways for names in way.behind]
        at_bench = []
        if component.carried_by is not None:
            carrier = self.plant.component(component.carried_by)
            at_bench = [(self._out(carrier), *keys) for keys in self._inside_clear(component, component.ways[0].behind)]
        return tuple(dict.fromkeys(in_place + at_bench))

    # -- components

    def _out(self, component: Component) -> Node:
        key = Out(component)
        if not self._known(key):
            needs = self._enter(key)
            needs.append(self._leavings(component, ends=("out",)))
        return key

    def _clear(self, component: Component) -> Node:
        key = Clear(component)
        if not self._known(key):
            needs = self._enter(key)
            with_carrier: Alternatives = ()
            if component.carried_by is not None:
                with_carrier = ((self._out(self.plant.component(component.carried_by)),),)
            needs.append(self._leavings(component, ends=("out", "aside"), bench=False) + with_carrier)
        return key

    def _leavings(self, component: Component, *, ends: tuple[str, ...], bench: bool = True) -> Alternatives:
        keys: list[Node] = [
            self._lift(component, index) for index, way in enumerate(component.ways) if way.ends in ends
        ]
        if bench and component.carried_by is not None:
            keys.append(self._bench(component))
        return tuple((key,) for key in keys)

    def _lift(self, component: Component, index: int) -> Node:
        key = Lift(component, index)
        if self._known(key):
            return key
        way = component.ways[index]
        time = elements.handling(component, way, self.plant.load_kg(component), self.plant.library)
        charges = (
            self._disturbs(component) + self._fetch(self.plant.chosen(way.tools)) + self._visit(component.position)
        )
        needs = self._enter(key, time.off_s, time.on_s, charges)
        if component.closed_to is not None:
            needs.append(())  # nobody of ours lifts it
        needs += [((self._undo(joint),),) for joint in self.plant.undone_by(component, way)]
        around = self.plant.carriers_of(component)
        needs.append(tuple(self._all_clear(names, around) for names in way.behind))
        needs += [((self._bared(medium),),) for medium in component.guards]
        for boundary in self.plant.forms(component):
            needs += [((self._made(name),),) for name in self.plant.library.boundaries[boundary].before_opening]
        return key

    def _bench(self, component: Component) -> Node:
        key = LiftAtBench(component)
        if self._known(key):
            return key
        assert component.carried_by is not None
        carrier = self.plant.component(component.carried_by)
        time = elements.handling(component, None, self.plant.load_kg(component), self.plant.library)
        needs = self._enter(key, time.off_s, time.on_s, self._disturbs(component) + self._visit("bench"))
        needs.append(((self._out(carrier),),))
        needs += [self._parted_at_bench(joint, component) for joint in self.plant.holding(component)]
        needs.append(tuple(self._inside_clear(component, component.ways[0].behind)))
        return key

    def _parted_at_bench(self, joint: Joint, component: Component) -> Alternatives:
        """A joint of what leaves at the bench: undone there, or in place where its other end left in place, so that
        nothing travels loose on its carrier. Our own rule.
        """
        around = self.plant.carriers_around(joint)
        if not around:
            return ((self._undone(joint),),)
        at_bench = tuple((self._undone_at_bench(joint, carrier),) for carrier in around)
        group = self.plant.group(component)
        (other,) = (self.plant.component(end) for end in joint.between if end not in group)
        if other in around:
            return at_bench
        return (*at_bench, (self._undo(joint), self._moved(Moved(other), ends=("out", "aside"))))

    def _clear_at_bench(self, component: Component) -> Node:
        key = ClearAtBench(component)
        if not self._known(key):
            needs = self._enter(key)
            needs.append(self._leavings(component, ends=("out", "aside")))
        return key

    def _inside_clear(self, item: Component, behind: tuple[tuple[str, ...], ...]) -> list[tuple[Node, ...]]:
        """The sets of `behind`: at the bench only what travels with the same carrier still stands in the way."""
        assert item.carried_by is not None
        group = self.plant.group(self.plant.component(item.carried_by))
        return [
            tuple(
                self._clear_at_bench(self.plant.component(name))
                for name in names
                if name in group and name != item.carried_by
            )
            for names in behind
        ]

    # -- joints

    def _undone(self, joint: Joint) -> Node:
        key = Undone(joint)
        if not self._known(key):
            needs = self._enter(key)
            ways = [(self._undo(joint),)]
            ways += [(self._undone_at_bench(joint, carrier),) for carrier in self.plant.carriers_around(joint)]
            needs.append(tuple(dict.fromkeys(ways)))
        return key

    def _undo(self, joint: Joint) -> Node:
        key = Undo(joint)
        if not self._known(key):
            needs = self._enter(key, *self._joint_seconds(joint), self._joint_charges(joint, joint.position))
            around = self.plant.carriers_of_both(joint)
            needs.append(tuple(self._all_clear(names, around) for names in joint.behind))
            needs += self._joint_circuit(joint)
        return key

    def _undone_at_bench(self, joint: Joint, carrier: Component) -> Node:
        key = UndoAtBench(joint)
        if not self._known(key):
            needs = self._enter(key, *self._joint_seconds(joint), self._joint_charges(joint, "bench"))
            needs.append(((self._out(carrier),),))
            group = self.plant.group(carrier)
            needs.append(
                tuple(
                    tuple(
                        self._clear_at_bench(self.plant.component(name))
                        for name in names
                        if name in group and name != carrier.id
                    )
                    for names in joint.behind
                )
            )
            needs += self._joint_circuit(joint)
        return key

    def _joint_seconds(self, joint: Joint) -> tuple[int, int]:
        fixing = self.plant.fixing(joint)
        seal_s = elements.seal_seconds(joint, self.plant.library)
        return elements.undo_seconds(joint, fixing), elements.remake_seconds(joint, fixing) + seal_s

    def _joint_charges(self, joint: Joint, position: str) -> list[Charge]:
        fixing: Fixing = self.plant.fixing(joint)
        proofs = self.plant.proofs_of(joint)
        return self._proofs(proofs) + self._fetch(self.plant.chosen(fixing.tools)) + self._visit(position)

    def _joint_circuit(self, joint: Joint) -> list[Alternatives]:
        return [((self._isolated(self.plant.circuit(joint.circuit)),),)] if joint.circuit is not None else []

    # -- conditions

    def _isolated(self, circuit: Circuit) -> Node:
        key = Isolated(circuit, self.plant.library.media[circuit.medium])
        if not self._known(key):
            needs = self._enter(key)
            needs += [((self._made(name),),) for name in self.plant.before_opening(circuit)]
            if circuit.isolate:
                allowed = self.plant.isolations(circuit)
                needs.append(tuple((self._made(isolation.makes),) for isolation in allowed))
        return key

    def _bared(self, medium: str) -> Node:
        key = Bared(self.plant.library.media[medium])
        if not self._known(key):
            needs = self._enter(key)
            needs += [((self._made(name),),) for name in self.plant.library.media[medium].before_opening]
            circuits = [circuit for circuit in self.plant.assembly.circuit if circuit.medium == medium]
            needs += [((self._isolated(circuit),),) for circuit in circuits]
        return key

    def _made(self, name: str) -> Node:
        key = Make(self.plant.library.conditions[name])
        if not self._known(key):
            needs = self._enter(key, *self.plant.condition_seconds(name))
            condition = self.plant.library.conditions[name]
            needs += [((self._made(other),),) for other in condition.after]
        return key

    # -- charges, each paid once

    def _all_clear(self, names: tuple[str, ...], around: Container[str] = ()) -> tuple[Node, ...]:
        """These components clear, for something that is still in place on the carriers `around`.

        Such a carrier can then only be aside, and what travels with it must have been moved, not carried out.
        """
        keys: list[Node] = []
        for component in (self.plant.component(name) for name in names if name != FRAME):
            if component.id in around:
                keys.append(self._moved(Aside(component), ends=("aside",)))
            elif any(name in around for name in self.plant.carriers_of(component)):
                keys.append(self._moved(Moved(component), ends=("out", "aside")))
            else:
                keys.append(self._clear(component))
        return tuple(keys)

    def _moved(self, key: Moved | Aside, *, ends: tuple[str, ...]) -> Node:
        if not self._known(key):
            needs = self._enter(key)
            needs.append(self._leavings(key.component, ends=ends, bench=False))
        return key

    def _disturbs(self, component: Component) -> list[Charge]:
        return self._proofs(self.plant.proofs_of_lifting(component))

    def _proofs(self, names: Iterable[str]) -> list[Charge]:
        for name in names:
            self.graph.charge_costs.setdefault(
                ("proof", name), elements.step_seconds(self.plant.library.proofs[name].step)
            )
        return [("proof", name) for name in names]

    def _fetch(self, tools: Iterable[str]) -> list[Charge]:
        """Every tool is picked up at least once to strip and once to refit."""
        for tool in tools:
            self.graph.charge_costs.setdefault(("tool", tool), 2 * self.plant.pickup_s(tool))
        return [("tool", tool) for tool in tools]

    def _visit(self, position: str) -> list[Charge]:
        """Every position but the first is gone to at least once to strip and once to refit."""
        least = self.plant.least_way_to(position)
        self.graph.charge_costs.setdefault(("position", position), 2 * least)
        return [("position", position)]
