"""The second half of a visit: putting back, releasing and proving, a problem of its own and not the strip reversed.

What held before what in the strip holds the other way round; then conditions are released and proofs run at their
stage; habits of the trade are added, each by its name. By hand: a pump behind a casing, its union proved for leaks with
the casing off: fit pump, remake union, refill, leak check, fit casing, restore the supply, function test.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from splitpin.access.result import Opening
from splitpin.notices import Notice, Place
from splitpin.planning.asked.expand import REPLACE, Wanted
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import Apart, Doing, Doings, Lift, Make, Undo, Work
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act, Ends, Programme
from splitpin.planning.programme.demands import Demand
from splitpin.planning.programme.habits import BEARING_LAST, Habits, in_their_order
from splitpin.planning.programme.hands import fit_act, remake_act
from splitpin.planning.programme.loosening import bearing_joints
from splitpin.planning.programme.procedures import hand_over_acts, proof_acts, release_acts

if TYPE_CHECKING:
    from splitpin.records.assembly import Component, Joint
    from splitpin.records.base import Behind


def held_by(opening: Opening, graph: Graph) -> list[tuple[Make, Apart]]:
    """Pairs (condition, doing): the condition isolates what the doing opens, so it is released only when that is closed
    again.

    A condition that only a boundary asks for is not among them: it need not hold until the boundary is closed.
    """
    nodes = graph.nodes
    direct = {(nodes[a], nodes[b]) for a, b in opening.before if isinstance(nodes[a], Make)}
    return [
        (other, doing)
        for doing, earlier in graph.doings(opening).items()
        for other in earlier
        if isinstance(other, Make) and isinstance(doing, Lift | Undo) and (other, doing) not in direct
    ]


class Seen(NamedTuple):
    """A joint or component that a proof looks at, and what it stands behind."""

    phrase: str
    place: Place
    behind: Behind


class Refit:
    """The programme of the second half; `notices` says what could not be kept.

    back: the act that puts each thing right, a bearing joint with its lift. releases, proofs: by id.
    """

    def __init__(
        self,
        opening: Opening,
        graph: Graph,
        doings: Doings,
        demanded: dict[str, Demand],
        plant: Plant,
        wanted: tuple[Wanted, ...],
        habits: Habits,
    ) -> None:
        self.plant = plant
        self.wanted = wanted
        self.doings = doings
        self.demanded = demanded
        self.held = held_by(opening, graph)
        self.bearing = bearing_joints(doings, plant) if BEARING_LAST in habits else {}
        self.programme = Programme()
        self.back: dict[Apart, Act] = {}
        self.notices: list[Notice] = []
        self.releases: dict[str, Ends] = {}
        self.proofs: dict[str, Ends] = {}
        self._put_back()
        self._release()
        self._prove()
        self._backwards()
        for habit in in_their_order(habits):
            if habit.refit is not None:
                habit.refit(self)
        self._hand_over()

    # -- putting back, the strip's rules mirrored

    def _put_back(self) -> None:
        apart = [doing for doing in self.doings if isinstance(doing, Lift | Undo)]
        bearing = {*self.bearing.values()}
        for doing in reversed(apart):
            if isinstance(doing, Lift):
                self.back[doing] = self.programme.add(self._fit(doing))
            elif doing not in bearing:
                self.back[doing] = self.programme.add(self._remake(doing))
        for lift, undo in self.bearing.items():
            self.back[undo] = self.back[lift]
        for doing in apart:
            for other in self.doings[doing]:
                if isinstance(other, Lift | Undo):
                    self.programme.require(self.back[doing], self.back[other])

    def _fit(self, lift: Lift) -> Act:
        new = {wish.component.id for wish in self.wanted if wish.component is not None and wish.do == REPLACE}
        undone = [doing.joint for doing in self.doings[lift] if isinstance(doing, Undo)]
        sealed = [joint for joint in undone if self._seal_goes_before(joint) is lift.component]
        fit = fit_act(lift, sealed, new, self.plant)
        if lift not in self.bearing:
            return fit
        made = self._remake(self.bearing[lift])
        return replace(fit, lines=(*fit.lines, *(replace(line, joint=made.joint) for line in made.lines)))

    def _remake(self, undo: Undo) -> Act:
        return remake_act(undo, self.plant, seal=self._seal_goes_before(undo.joint) is None)

    def _seal_goes_before(self, joint: Joint) -> Component | None:
        """The component whose fitting the new seal must precede: the first end of the joint that was lifted off it."""
        if not self.plant.parts_faces(joint):
            return None
        lifted = [
            doing.component
            for doing, earlier in self.doings.items()
            if isinstance(doing, Lift) and any(isinstance(other, Undo) and other.joint is joint for other in earlier)
        ]
        groups = [(component, self.plant.group(component)) for component in lifted]
        return next((component for end in joint.between for component, group in groups if end in group), None)

    # -- releasing

    def _release(self) -> None:
        conditions = self.plant.library.conditions
        for doing in self.doings:
            if isinstance(doing, Make) and (acts := release_acts(doing, self.plant)):
                self.releases[doing.name] = self.programme.add_chain(acts)
        for made, doing in self.held:
            for name in self._ended_by(made.name):
                if name in self.releases:
                    self.programme.require(self.back[doing], self.releases[name].first)
        for name, ends in self.releases.items():
            for other in conditions[name].release_after:
                if other in self.releases:
                    self.programme.require(self.releases[other].last, ends.first)

    def _backwards(self) -> None:
        """Releases run backwards through the makings, unless `release_after` or a proof between says otherwise."""
        conditions = self.plant.library.conditions
        for name, ends in self.releases.items():
            for earlier in self._standing_on(name)[1:]:
                if earlier in self.releases and earlier not in conditions[name].release_after:
                    self.programme.prefer(ends.last, self.releases[earlier].first)

    def _ended_by(self, condition: str) -> tuple[str, ...]:
        """The conditions whose release ends one: itself, or those that it is made after where it has no release."""
        row = self.plant.library.conditions[condition]
        if row.release or not row.after:
            return (condition,)
        return tuple(dict.fromkeys(name for earlier in row.after for name in self._ended_by(earlier)))

    # -- proving

    def _prove(self) -> None:
        proofs = self.plant.library.proofs
        closing = [*self.back.values()]
        for name, demand in self.demanded.items():
            joints = [self.plant.ends(joint) for joint in demand.joints]
            self.proofs[name] = self.programme.add_chain(proof_acts(proofs[name], joints, self.plant))
        for name, ends in self.proofs.items():
            proof = proofs[name]
            for doing in self._closed_before(name):
                self.programme.require(self.back[doing], ends.first)
            for other in proof.after:
                if other in self.proofs:
                    self.programme.require(self.proofs[other].last, ends.first)
            if proof.stage != "open":
                for act in closing:
                    self.programme.require(act, ends.first)
            if proof.stage == "live":
                for other, earlier in self.proofs.items():
                    if proofs[other].stage != "live":
                        self.programme.require(earlier.last, ends.first)
            self._plant_state(name, ends)
            for condition, release in self.releases.items():
                if name in self.plant.library.conditions[condition].release_after:
                    self.programme.require(ends.last, release.first)

    def _plant_state(self, name: str, ends: Ends) -> None:
        """Dead before the release of what it needs held; charged after its circuits are released; running after all."""
        proof = self.plant.library.proofs[name]
        if proof.plant == "dead":
            for condition in proof.held:
                if condition in self.releases:
                    self.programme.require(ends.last, self.releases[condition].first)
        elif proof.plant == "charged":
            brought = self.demanded[name].doings
            held = {made.name for made, doing in self.held if doing in brought}
            held.update(*(self._isolations_of(doing.wanted) for doing in brought if isinstance(doing, Work)))
            for condition in sorted(held):
                for other in self._standing_on(condition):
                    if other in self.releases and name not in self.plant.library.conditions[other].release_after:
                        self.programme.require(self.releases[other].last, ends.first)
        if proof.plant == "running" or proof.stage == "live":
            for release in self.releases.values():
                self.programme.require(release.last, ends.first)

    def _isolations_of(self, wanted: Wanted) -> set[str]:
        """The conditions that a task asks for and that isolate a circuit: released, they charge it again."""
        makes = {isolation.makes for circuit in self.plant.assembly.circuit for isolation in circuit.isolate}
        return makes & {*wanted.work.conditions}

    def _standing_on(self, condition: str) -> tuple[str, ...]:
        """A condition and all those that it is made after."""
        found = [condition]
        for name in found:
            found += [other for other in self.plant.library.conditions[name].after if other not in found]
        return tuple(found)

    def _closed_before(self, name: str) -> list[Apart]:
        """What must be closed again before a proof: the joints that brought it, and the lifts with their joints."""
        brought = [doing for doing in self.demanded[name].doings if isinstance(doing, Lift | Undo)]
        of_lifts = [undo for lift in brought if isinstance(lift, Lift) for undo in self.doings[lift]]
        return list(dict.fromkeys(brought + [undo for undo in of_lifts if isinstance(undo, Undo)]))

    # -- what is looked at

    def in_front_of(self, name: str) -> Iterator[tuple[Seen, Component, Act]]:
        """What a proof that runs while all is open looks at, with each cover before it and the act that fits that."""
        if self.plant.library.proofs[name].stage != "open":
            return
        fits = {lift.component.id: (lift.component, act) for lift, act in self.back.items() if isinstance(lift, Lift)}
        for seen in filter(None, map(_seen, self.demanded[name].doings)):
            for cover in dict.fromkeys(cover for names in seen.behind for cover in names):
                if cover in fits:
                    yield seen, *fits[cover]

    def hidden(self, name: str, seen: Seen, cover: Component) -> None:
        """Something must be proved with a cover in front of it: say so."""
        title = self.plant.library.proofs[name].title
        message = f"{title}: {seen.phrase} must be proved with the {cover.title} in front of it"
        self.notices.append(Notice("hidden-joint", message, seen.place, "look past it with a torch and a mirror"))

    def _hand_over(self) -> None:
        acts = hand_over_acts(self.plant)
        if acts:
            everything = list(self.programme.acts)
            ends = self.programme.add_chain(acts)
            for act in everything:
                self.programme.require(act, ends.first)


def _seen(doing: Doing) -> Seen | None:
    match doing:
        case Undo():
            return Seen(doing.phrase, doing.place, doing.joint.behind)
        case Lift(component=component) | Work(wanted=Wanted(component=component)) if component is not None:
            behind = tuple(names for way in component.ways for names in way.behind)
            return Seen(f"the {component.title}", component.place, behind)
    return None
