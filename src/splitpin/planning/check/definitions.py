"""What a visit's files say, indexed for looking things up: who carries what, what holds what, what is asked."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from splitpin.hardware.fixing import Fixing
from splitpin.hardware.resolving import resolve
from splitpin.records.words import BENCH

if TYPE_CHECKING:
    from splitpin.records.assembly import Assembly, Circuit, Component, Joint, Way, Work
    from splitpin.records.catalogue import Handling
    from splitpin.records.library import Library, Visit


@dataclass(frozen=True, slots=True)
class Asked:
    """A task after templates and roles are spelt out: `do` on a component, or a new seal in a joint."""

    do: str
    component: str | None = None
    joint: str | None = None
    work: Work | None = None  # none where the task is only `replace` and the part says it all


@dataclass(frozen=True, slots=True)
class Need:
    """A condition that must hold from one step to another: any one of `conditions`; `who` says whose need it is.
    With `must` false the need may be felt or not: it excuses the condition, and does not ask for it."""

    rule: str
    who: str
    first: int
    last: int
    conditions: tuple[str, ...]
    must: bool = True


@dataclass(frozen=True)
class Definitions:
    """The definitions behind one visit. Look-ups are by id; an unknown one raises KeyError, for reading refuses it."""

    visit: Visit

    @cached_property
    def assembly(self) -> Assembly:
        return self.visit.assembly

    @property
    def library(self) -> Library:
        return self.visit.library

    @cached_property
    def components(self) -> dict[str, Component]:
        return {component.id: component for component in self.assembly.component}

    @cached_property
    def joints(self) -> dict[str, Joint]:
        return {joint.id: joint for joint in self.assembly.joint}

    @cached_property
    def circuits(self) -> dict[str, Circuit]:
        return {circuit.id: circuit for circuit in self.assembly.circuit}

    def carriers(self, component: str) -> tuple[str, ...]:
        """What carries it, nearest first; nothing for the frame."""
        found: list[str] = []
        while component in self.components and (carrier := self.components[component].carried_by) is not None:
            if carrier in found:
                break
            found.append(carrier)
            component = carrier
        return tuple(found)

    def chain(self, component: str) -> tuple[str, ...]:
        """The component and what carries it, nearest first."""
        return (component, *self.carriers(component))

    def closed(self, component: str) -> bool:
        """Whether it is, or travels with, something that only the holder of a licence may open."""
        return any(self.components[one].closed_to is not None for one in self.chain(component))

    def sealed(self, joint: str) -> bool:
        """Whether an end of the joint is or travels with something closed that does not except this joint."""
        inside = [self.components[one] for end in self.joints[joint].between if end in self.components
                  for one in self.chain(end)]  # fmt: skip
        return any(row.closed_to is not None and joint not in row.open_joints for row in inside)

    @cached_property
    def _groups(self) -> dict[str, frozenset[str]]:
        found: dict[str, set[str]] = {}
        for component in self.components:
            for carrier in self.chain(component):
                found.setdefault(carrier, set()).add(component)
        return {carrier: frozenset(group) for carrier, group in found.items()}

    def group(self, component: str) -> frozenset[str]:
        """The component and everything it carries, directly or not."""
        return self._groups[component]

    def undone_by(self, component: str, way: Way) -> tuple[str, ...]:
        """The joints that leaving by this way undoes: those it names, or every joint that crosses the group's edge."""
        if way.undoes is not None:
            return way.undoes
        return self._crossing[component]

    @cached_property
    def _crossing(self) -> dict[str, tuple[str, ...]]:
        """The joints that cross the edge of each component's group, in file order."""
        found: dict[str, list[str]] = {component: [] for component in self.components}
        for joint in self.assembly.joint:
            one, other = (set(self.chain(end)) & set(self.components) for end in joint.between)
            for component in one ^ other:
                found[component].append(joint.id)
        return {component: tuple(joints) for component, joints in found.items()}

    def before_opening(self, circuit: Circuit) -> tuple[str, ...]:
        """Conditions that hold before a joint of this circuit is undone: its own list, or else its medium's."""
        own = circuit.before_opening
        return own if own is not None else self.library.media[circuit.medium].before_opening

    def after_remaking(self, circuit: Circuit) -> tuple[str, ...]:
        """Proofs that follow a joint of this circuit: its own list, or else its medium's."""
        own = circuit.after_remaking
        return own if own is not None else self.library.media[circuit.medium].after_remaking

    def isolations(self, circuit: Circuit) -> tuple[str, ...]:
        """The conditions that isolate the circuit, without the ways that this job rules out."""
        out = self.visit.job.job.rule_out
        return tuple(isolation.makes for isolation in circuit.isolate if isolation.by not in out)

    def met_by(self, condition: str) -> tuple[str, ...]:
        """The conditions any of which meets a need for this one: itself, and each that satisfies it."""
        stronger = (name for name, record in self.library.conditions.items() if condition in record.satisfies)
        return (condition, *stronger)

    def released_by(self, condition: str) -> tuple[str, ...]:
        """The conditions whose release ends this one: itself, or those it comes after where it has no release."""
        record = self.library.conditions[condition]
        if record.release or not record.after:
            return (condition,)
        return tuple(dict.fromkeys(one for earlier in record.after for one in self.released_by(earlier)))

    def bared_by(self, guard: str, medium: str) -> tuple[Circuit, ...]:
        """The circuits of the medium that meet this guard or something that it hides in turn; where none does, every
        circuit of the medium."""
        every = tuple(circuit for circuit in self.assembly.circuit if circuit.medium == medium)
        met = {
            joint.circuit
            for joint in self.assembly.joint
            if any(guard in self._ahead[one] for one in (*joint.between, *_named(joint.behind)) if one in self._ahead)
        }
        return tuple(circuit for circuit in every if circuit.id in met) or every

    @cached_property
    def _ahead(self) -> dict[str, set[str]]:
        """Each component with all that is in front of it or of what carries it, directly or not."""
        found = {}
        for component in self.components:
            waiting, seen = [component], {component}
            while waiting:
                row = self.components[waiting.pop()]
                more = {one for way in row.ways for one in _named(way.behind)} | {row.carried_by or row.id}
                waiting += sorted(more & set(self.components) - seen)
                seen |= more
            found[component] = seen
        return found

    def fixing(self, joint: str) -> Fixing:
        """The hardware of the joint: a row of the catalogue, or what its standard designation stands for."""
        return self._fixings[joint]

    @cached_property
    def _fixings(self) -> dict[str, Fixing]:
        found = {joint.id: resolve(joint.hardware, self.library) for joint in self.assembly.joint}
        return {joint: fixing for joint, fixing in found.items() if isinstance(fixing, Fixing)}

    def moves_across(self, component: str) -> tuple[str, ...]:
        """What the component carries directly and its new part does not bring: it goes on the new one."""
        included = self.components[component].part_includes
        return tuple(c.id for c in self.assembly.component if c.carried_by == component and c.id not in included)

    def proofs_of_new(self, component: str) -> tuple[str, ...]:
        """What a new part brings with the parts that it includes: the proofs of each, as if it were replaced alone."""
        found: list[str] = []
        for name in self.components[component].part_includes:
            inner = self.components[name]
            alone = inner.work.get("replace")
            found += [*inner.proves, *(alone.proofs if alone else ()), *self.proofs_of_new(name)]
        return tuple(dict.fromkeys(found))

    def rank(self, joint: str) -> tuple[bool, int]:
        """The turn of the joint among the joints of one lift: by its kind, and what bears weight after all others."""
        return self.joints[joint].bears, self.library.kinds[self.fixing(joint).kind].rank

    def people(self, component: str, way: Way) -> int:
        """How many must lift it: as the way says, or by its mass and that of all it carries; past the heaviest row, as
        many as that row. What only moves aside is carried by nobody."""
        if way.people is not None or way.ends == "aside":
            return way.people or 1
        load = round(sum(self.components[one].mass_kg or 0 for one in self.group(component)), 3)
        row = next((row for row in self.library.handling if load <= row.up_to_kg), None)
        if row is None:
            return self.library.handling[-1].people if self.library.handling else 1
        return row.people

    def handling_s(self, component: str, way: Way) -> tuple[int, int]:
        """Seconds to lift it off and to put it back, as the way says or by its mass; none known count as 0."""
        row = self._handling(component)
        off, on = (0, 0) if row is None else (row.off_s, row.on_s)
        return off if way.off_s is None else way.off_s, on if way.on_s is None else way.on_s

    def _handling(self, component: str) -> Handling | None:
        mass, rows = self.components[component].mass_kg, self.library.handling
        if mass is None or not rows:
            return None
        return next((row for row in rows if mass <= row.up_to_kg), rows[-1])

    @cached_property
    def _walks(self) -> dict[tuple[str, str], int]:
        """Seconds between positions by the shortest way: the moves given, the firm's figure for all others."""
        places = (*self.assembly.assembly.positions, BENCH)
        default = self.visit.firm.times.move_s
        walks = {(a, b): 0 if a == b else default for a in places for b in places}
        for move in self.assembly.move:
            walks[move.between[0], move.between[1]] = walks[move.between[1], move.between[0]] = move.seconds
        for over in places:
            for a in places:
                for b in places:
                    walks[a, b] = min(walks[a, b], walks[a, over] + walks[over, b])
        return walks

    def walk_s(self, here: str, there: str) -> int:
        """Seconds from one position to another; 0 where one of them is no position of this plant."""
        return self._walks.get((here, there), 0)

    def in_front(self, component: str) -> tuple[tuple[str, ...], ...]:
        """The sets of which any one, clear, exposes the component."""
        return tuple(front for way in self.components[component].ways for front in way.behind)

    @cached_property
    def asked(self) -> tuple[Asked, ...]:
        """Every task of the job, templates and roles spelt out, each once. A line of a template that finds no
        component to offer it asks for nothing; nor do symptoms, whose cures are not yet tasks."""
        return tuple(dict.fromkeys(self._all_asked()))

    def _all_asked(self) -> Iterator[Asked]:
        job = self.visit.job
        for task in job.task:
            if task.joint is not None:
                yield Asked(task.do, joint=task.joint)
            elif task.component is not None:
                yield self._asked(task.component, task.do)
            else:
                yield from self._by_role(task.role, task.do)
        for template in job.job.template:
            for line in self.library.templates[template].task:
                yield from self._by_role(line.role, line.do)

    def _by_role(self, role: str | None, do: str) -> Iterator[Asked]:
        for component in self.assembly.component:
            if component.role == role and (do in component.work or (do == "replace" and component.part is not None)):
                yield self._asked(component.id, do)

    def _asked(self, component: str, do: str) -> Asked:
        return Asked(do, component=component, work=self.components[component].work.get(do))


def _named(behind: tuple[tuple[str, ...], ...]) -> set[str]:
    return {one for front in behind for one in front}
