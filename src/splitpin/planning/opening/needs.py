"""What each doing and each state needs, read off the catalogue: the rules by which the graph of a visit grows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import takewhile
from typing import TYPE_CHECKING

from splitpin.planning.asked.expand import REPLACE, Wanted
from splitpin.planning.opening.graph import Alternatives, Charge, Graph
from splitpin.planning.opening.states import Away, Bared, Isolated, Node, Reach, Undone
from splitpin.planning.plant import elements
from splitpin.planning.plant.doings import Lift, Make, Undo, Work
from splitpin.planning.plant.plant import Plant
from splitpin.records.assembly import Joint
from splitpin.records.words import FRAME

if TYPE_CHECKING:
    from splitpin.records.assembly import Circuit, Component, Way

ANY = ("out", "aside")  # however a component ends


def open_graph(plant: Plant, wanted: tuple[Wanted, ...]) -> Graph:
    """The graph of a visit: only what the wanted tasks can reach through needs is in it."""
    return _Builder(plant, wanted).graph


class _Builder:
    """Meets each node once, depth first from the tasks; a node that is known is not entered again, so circles end."""

    def __init__(self, plant: Plant, wanted: tuple[Wanted, ...]) -> None:
        self.plant = plant
        self.graph = Graph()
        self._met: dict[str, Node] = {}
        for number, wish in enumerate(wanted):
            self.graph.targets.append(self._work(wish, number))

    def _meet(self, name: str, make: Callable[[], Node]) -> Node:
        known = self._met.get(name)
        if known is None:
            known = self._met[name] = make()
            self.graph.charges[known] = frozenset(self._charges(known))
            needs = self.graph.needs[known] = []
            for need in self._needs(known):
                needs.append(need)
        return known

    def _needs(self, node: Node) -> Iterator[Alternatives]:
        match node:
            case Work():
                return self._of_work(node.wanted)
            case Lift():
                return self._of_lift(node) if node.carrier is None else self._of_bench(node, node.carrier)
            case Undo():
                return self._of_undo(node)
            case Make():
                return self._all_made(node.condition.after)
            case Away():
                return iter((self._ways_to(node),))
            case Undone():
                return iter((self._ways_undone(node.joint),))
            case Isolated():
                return self._of_isolated(node.circuit)
            case Bared():
                return self._of_bared(node)

    # -- tasks

    def _work(self, wanted: Wanted, number: int) -> Node:
        return self._meet(f"work {number}", lambda: Work.of(wanted, number))

    def _of_work(self, wanted: Wanted) -> Iterator[Alternatives]:
        component = wanted.component
        if wanted.joint is not None:
            yield ((self._undone(wanted.joint),),)
            if self.plant.parts_faces(wanted.joint):
                ends = [self.plant.component(end) for end in wanted.joint.between if end != FRAME]
                yield tuple(way for end in ends for way in (*self._leavings(end), *self._at_bench(end)))
        elif component is not None:
            if wanted.work.needs == "out":
                yield ((self._away(component, "out"),),)
            elif wanted.work.needs == "exposed":
                yield self._exposed(component)
            if wanted.do == REPLACE:
                for other in self.plant.moves_across(component):
                    yield ((self._away(other, "out"),),)
        yield from self._all_made(wanted.work.conditions)

    def _exposed(self, component: Component) -> Alternatives:
        in_place = [self._all_clear(names, component) for way in component.ways for names in way.behind]
        at_bench = [
            (self._away(carrier, "out"), *nodes)
            for carrier in self.plant.carriers(component)
            for way in component.ways
            for nodes in self._clear_inside(way, self.plant.carriers(component), carrier)
        ]
        return tuple(dict.fromkeys(in_place + at_bench))

    # -- components

    def _away(self, component: Component, reach: Reach, carrier: Component | None = None) -> Node:
        name = f"{component.id} {reach} {carrier.id if carrier else ''}"
        return self._meet(name, lambda: Away(component, reach, carrier))

    def _ways_to(self, away: Away) -> Alternatives:
        component = away.component
        match away.reach:
            case "out":
                return (*self._leavings(component, ("out",)), *self._at_bench(component, ("out",)))
            case "out in place":
                return self._leavings(component, ("out",))
            case "aside":
                return self._leavings(component, ("aside",))
            case "aside at the bench":
                return (*self._leavings(component, ("aside",)), *self._at_bench(component, ("aside",)))
            case "clear at the bench":
                below = self._carriers_below(component, away.carrier)[:1]
                with_one = tuple((self._away(carrier, away.reach, away.carrier),) for carrier in below)
                return (*self._leavings(component), *self._at_bench(component), *with_one)
        below = self._carriers_below(component, away.carrier)
        with_one = tuple((self._away(carrier, "out in place"),) for carrier in below)
        return (*self._leavings(component), *with_one)

    def _carriers_below(self, component: Component, carrier: Component | None) -> tuple[Component, ...]:
        """What carries the component, nearest first, as far as this carrier; all where it is none of them."""
        found = self.plant.carriers(component)
        return tuple(takewhile(lambda one: one is not carrier, found))

    def _leavings(self, component: Component, ends: tuple[str, ...] = ANY) -> Alternatives:
        return tuple((self._lift(component, number),) for number, way in enumerate(component.ways) if way.ends in ends)

    def _at_bench(self, component: Component, ends: tuple[str, ...] = ANY) -> Alternatives:
        return tuple(
            (self._lift(component, number, carrier),)
            for carrier in self.plant.carriers(component)
            for number, way in enumerate(component.ways)
            if way.ends in ends
        )

    def _lift(self, component: Component, number: int, carrier: Component | None = None) -> Node:
        name = f"lift {component.id} {number} {carrier.id if carrier else ''}"
        return self._meet(name, lambda: Lift.of(component, number, self.plant, carrier))

    def _of_lift(self, lift: Lift) -> Iterator[Alternatives]:
        component, way = lift.component, lift.way
        yield from self._forbidden(self.plant.closed_by(component))
        for joint in self.plant.undone_by(component, way):
            yield ((self._undo(joint),),)
        yield tuple(self._all_clear(names, component) for names in way.behind)
        for medium in component.guards:
            yield ((self._bared(medium),),)
            for circuit in self.plant.guarded(component, medium):
                yield ((self._bared(medium, circuit),),)
        for boundary in self.plant.forms(component):
            yield from self._all_made(self.plant.library.boundaries[boundary].before_opening)

    def _of_bench(self, lift: Lift, carrier: Component) -> Iterator[Alternatives]:
        component = lift.component
        yield from self._forbidden(self.plant.closed_by(component))
        yield ((self._away(carrier, "out"),),)
        for joint in self.plant.undone_by(component, lift.way):
            yield self._parted_at_bench(joint, component, carrier)
        yield tuple(self._clear_inside(lift.way, self.plant.carriers(component), carrier))

    def _parted_at_bench(self, joint: Joint, component: Component, carrier: Component) -> Alternatives:
        """A joint of what leaves at the bench: undone there, or in place where its other end left in place, so that
        nothing travels loose on its carrier. Our own rule.
        """
        group = self.plant.group(component)
        ends = [self.plant.component(end) for end in joint.between if end != FRAME and end not in group]
        if not self.plant.inside(joint, carrier) or len(ends) != 1:
            return ((self._undone(joint),),)
        around = self.plant.carriers_around(joint)
        at_bench = tuple((self._undo(joint, one),) for one in around)
        (other,) = ends
        if any(one is other for one in around):
            return at_bench
        return (*at_bench, (self._undo(joint), self._away(other, "moved", around[0])))

    def _clear_inside(
        self, way: Way | Joint, around: tuple[Component, ...], carrier: Component
    ) -> Iterator[tuple[Node, ...]]:
        """The sets of what a way or joint is behind at the bench: only what travels with the carrier that is out still
        stands in the way.
        """
        group = self.plant.group(carrier)
        for names in way.behind if way.bench_behind is None else way.bench_behind:
            inside = [self.plant.component(name) for name in names if name in group and name != carrier.id]
            yield self._clear(inside, around, "aside at the bench", "clear at the bench")

    def _all_clear(self, names: tuple[str, ...], item: Component | Joint) -> tuple[Node, ...]:
        """These components clear, for something that is still in place on its carriers.

        Such a carrier can then only be aside, and what travels with it must have been moved, not carried out with it.
        """
        carriers = self.plant.carriers_around(item) if isinstance(item, Joint) else self.plant.carriers(item)
        components = [self.plant.component(name) for name in names if name != FRAME]
        return self._clear(components, carriers, "aside", "moved")

    def _clear(
        self, components: list[Component], carriers: tuple[Component, ...], aside: Reach, moved: Reach
    ) -> tuple[Node, ...]:
        """These components clear of something with these carriers, the nearest that both share staying around it."""
        around = {carrier.id for carrier in carriers}
        nodes = []
        for component in components:
            stays = next((one for one in self.plant.carriers(component) if one.id in around), None)
            if component.id in around:
                nodes.append(self._away(component, aside))
            else:
                nodes.append(self._away(component, "clear" if stays is None else moved, stays))
        return tuple(nodes)

    # -- joints

    def _undone(self, joint: Joint) -> Node:
        return self._meet(f"undone {joint.id}", lambda: Undone(joint, self.plant.ends(joint)))

    def _ways_undone(self, joint: Joint) -> Alternatives:
        return ((self._undo(joint),), *((self._undo(joint, one),) for one in self.plant.carriers_around(joint)))

    def _undo(self, joint: Joint, carrier: Component | None = None) -> Node:
        name = f"undo {joint.id} {carrier.id if carrier else ''}"
        return self._meet(name, lambda: Undo.of(joint, self.plant, carrier))

    def _of_undo(self, undo: Undo) -> Iterator[Alternatives]:
        joint = undo.joint
        yield from self._forbidden(self.plant.shut_by(joint))
        if undo.carrier is not None:
            yield ((self._away(undo.carrier, "out"),),)
            yield tuple(self._clear_inside(joint, self.plant.carriers_around(joint), undo.carrier))
        else:
            yield tuple(self._all_clear(names, joint) for names in joint.behind)
        if joint.circuit is not None:
            yield ((self._isolated(self.plant.circuit(joint.circuit)),),)

    def _forbidden(self, closed: Component | None) -> Iterator[Alternatives]:
        """A need without an alternative, where something closed keeps everybody but its licence from a doing."""
        if closed is not None:
            yield ()

    # -- conditions

    def _isolated(self, circuit: Circuit) -> Node:
        title = circuit.title or self.plant.library.media[circuit.medium].title
        return self._meet(f"isolated {circuit.id}", lambda: Isolated(circuit, title))

    def _of_isolated(self, circuit: Circuit) -> Iterator[Alternatives]:
        yield from self._all_made(self.plant.before_opening(circuit))
        if circuit.isolate:
            yield self._isolations(circuit)

    def _isolations(self, circuit: Circuit) -> Alternatives:
        return tuple((self._made(isolation.makes),) for isolation in self.plant.isolations(circuit))

    def _bared(self, medium: str, circuit: Circuit | None = None) -> Node:
        name = f"bared {medium}" if circuit is None else f"bared {medium} {circuit.id}"
        return self._meet(name, lambda: Bared(self.plant.library.media[medium], circuit))

    def _of_bared(self, bared: Bared) -> Iterator[Alternatives]:
        """What else a circuit wants, in place of its medium's conditions, is asked where the circuit is opened."""
        if bared.circuit is None:
            yield from self._all_made(bared.medium.before_opening)
        else:
            yield self._isolations(bared.circuit)

    def _all_made(self, names: Iterable[str]) -> Iterator[Alternatives]:
        for name in names:
            yield ((self._made(name),),)

    def _made(self, name: str) -> Node:
        return self._meet(f"make {name}", lambda: Make.of(self.plant.library.conditions[name], self.plant))

    # -- charges, each paid once

    def _charges(self, node: Node) -> list[Charge]:
        match node:
            case Work():
                component = node.wanted.component
                proves = component.proves if component is not None and node.wanted.do == REPLACE else ()
                return self._proofs((*node.wanted.work.proofs, *proves))
            case Lift():
                proofs = self.plant.proofs_of_lifting(node.component)
                return self._proofs(proofs) + self._fetch(node.tools) + self._visit(node.position)
            case Undo():
                proofs = self.plant.proofs_of(node.joint)
                return self._proofs(proofs) + self._fetch(node.tools) + self._visit(node.position)
        return []

    def _proofs(self, names: Iterable[str]) -> list[Charge]:
        rows = self.plant.library.proofs
        return [self._pay(Charge("proof", name), elements.step_seconds(rows[name].step)) for name in names]

    def _fetch(self, tools: Iterable[str]) -> list[Charge]:
        """Every tool is picked up at least once to strip and once to refit."""
        return [self._pay(Charge("tool", tool), 2 * self.plant.pickup_s(tool)) for tool in tools]

    def _visit(self, position: str) -> list[Charge]:
        """Every position but the first is gone to at least once to strip and once to refit."""
        return [self._pay(Charge("position", position), 2 * self.plant.least_way_to(position))]

    def _pay(self, charge: Charge, seconds: int) -> Charge:
        self.graph.charge_costs.setdefault(charge, seconds)
        return charge
