"""Step 4: putting back, releasing and proving, a problem of its own and not the strip list reversed.

What held before what in the strip holds the other way round; then conditions are released, proofs run at their
stage, and covers that hide a joint wait for that joint's proof. By hand: a pump behind a casing, its union proved
for leaks with the casing off: fit pump, remake union, refill, leak check, fit casing, restore the supply, function
test.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from splitpin.access.result import Opening
from splitpin.notices import Notice, Place
from splitpin.planning.asked.expand import REPLACE, Wanted
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant import elements
from splitpin.planning.plant.keys import LIFTING, UNDOING, Doings, Key
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme import tightening, wording
from splitpin.planning.programme.acts import Act, Ends, Line, Programme
from splitpin.planning.programme.demands import Demand
from splitpin.planning.programme.strip import bearing_joints, held_by, in_turn, legs
from splitpin.records.words import BENCH

if TYPE_CHECKING:
    from splitpin.records.assembly import Joint
    from splitpin.records.base import Behind

PHYSICAL = {"lift": "fit", "bench": "fit", "undo": "remake", "undo-bench": "remake"}
HAND_OVER = "hand-over"  # the proof that every visit ends with


def back(doing: Key) -> Key:
    """The key of the act that puts right what a strip doing opened."""
    return (PHYSICAL[doing[0]], doing[1])


class Refit:
    """Builds the programme of the second half; `notices` says what could not be kept."""

    def __init__(
        self,
        opening: Opening,
        graph: Graph,
        doings: Doings,
        demanded: dict[str, Demand],
        plant: Plant,
        wanted: tuple[Wanted, ...],
    ) -> None:
        self.plant = plant
        self.wanted = wanted
        self.doings = doings
        self.demanded = demanded
        self.joints = {joint.id: joint for joint in plant.assembly.joint}
        self.new = {w.component.id for w in wanted if w.component is not None and w.do == REPLACE}
        self.held = held_by(opening, graph)
        self.programme = Programme()
        self.with_fit: dict[Key, Key] = {}
        self.notices: list[Notice] = []
        self.releases: dict[str, Ends] = {}
        self.proofs: dict[str, Ends] = {}
        self._put_back()
        self._release()
        self._prove()
        self._covers_wait()
        self._close_first()
        self._hand_over()

    # -- putting back, the strip's rules mirrored

    def _put_back(self) -> None:
        physical = [doing for doing in self.doings if doing[0] in PHYSICAL]
        bearing = bearing_joints(self.doings, self.plant)
        for doing in reversed(physical):
            if doing in bearing:
                fit, made = self._fit_act(doing), self._remake_act(bearing[doing])
                self.programme.add(
                    replace(fit, lines=(*fit.lines, *(replace(line, joint=made.joint) for line in made.lines)))
                )
                self.with_fit[back(bearing[doing])] = fit.key
            elif doing not in bearing.values():
                self.programme.add(self._remake_act(doing) if doing[0] in UNDOING else self._fit_act(doing))
        for doing in physical:
            for other in self.doings[doing]:
                if other[0] in PHYSICAL:
                    self.programme.require(self.back(doing), self.back(other))
        for earlier, later in in_turn(self.doings, self.plant):
            self.programme.prefer(self.back(later), self.back(earlier))

    def back(self, doing: Key) -> Key:
        """The key of the act that puts right what a strip doing opened; a bearing joint is remade with its lift."""
        key = back(doing)
        return self.with_fit.get(key, key)

    def _fit_act(self, doing: Key) -> Act:
        component = self.plant.component(doing[1])
        new = component.id in self.new
        seals = [
            self._seal_line(joint)
            for joint in self._opened_joints(doing)
            if self._seal_goes_before(joint) == component.id
        ]
        if doing[0] == "bench":
            time = elements.handling(component, None, self.plant.load_kg(component), self.plant.library)
            text = wording.fit_at_bench(component, self.plant, new=new, new_carrier=component.carried_by in self.new)
            line = Line("fit", text, time.on_s, people=time.people)
            return Act(back(doing), "refit", (*seals, line), BENCH, component=component.id)
        way = component.ways[int(doing[2])]
        time = elements.handling(component, way, self.plant.load_kg(component), self.plant.library)
        line = Line(
            "fit",
            wording.fit(component, way, time.people, new=new),
            time.on_s,
            tools=self.plant.chosen(way.tools),
            cautions=component.cautions,
            people=time.people,
        )
        return Act(back(doing), "refit", (*seals, line), component.position, component=component.id)

    def _opened_joints(self, doing: Key) -> list[Joint]:
        return [self.joints[key[1]] for key in self.doings[doing] if key[0] in UNDOING]

    def _seal_goes_before(self, joint: Joint) -> str | None:
        """The component whose fitting the new seal must precede: the first end of the joint that was lifted off it."""
        if joint.seal is None or self.plant.library.seals[joint.seal].placed != "before-positioning":
            return None
        undone = {("undo", joint.id), ("undo-bench", joint.id)}
        lifted = [doing[1] for doing, earlier in self.doings.items() if doing[0] in LIFTING and undone & {*earlier}]
        groups = [(name, self.plant.group(self.plant.component(name))) for name in lifted]
        return next((name for end in joint.between for name, group in groups if end in group), None)

    def _seal_line(self, joint: Joint) -> Line:
        assert joint.seal is not None
        seal = self.plant.library.seals[joint.seal]
        return Line(
            "seal",
            wording.new_seal(joint, self.plant),
            elements.seal_seconds(joint, self.plant.library),
            consumables=seal.consumables,
            seals=(joint.seal,),
            joint=joint.id,
        )

    def _remake_act(self, doing: Key) -> Act:
        joint = self.joints[doing[1]]
        here = joint.seal is not None and self._seal_goes_before(joint) is None
        seals = [self._seal_line(joint)] if here else []
        position = BENCH if doing[0] == "undo-bench" else joint.position
        return Act(back(doing), "refit", (*seals, *tightening.lines(joint, self.plant)), position, joint=joint.id)

    # -- releasing

    def _release(self) -> None:
        conditions = self.plant.library.conditions
        made = [doing[1] for doing in self.doings if doing[0] == "make"]
        for name in made:
            acts = legs(
                conditions[name].release, ("release", name), "release", "release", self.plant, (), condition=name
            )
            if acts:
                self.releases[name] = self.programme.add_chain(acts)
        for key, doing in sorted(self.held):
            for name in self._ended_by(key[1]):
                if name in self.releases:
                    self.programme.require(self.back(doing), self.releases[name].first)
        for name, ends in self.releases.items():
            for other in conditions[name].release_after:
                if other in self.releases:
                    self.programme.require(self.releases[other].last, ends.first)

    def _ended_by(self, condition: str) -> tuple[str, ...]:
        """The conditions whose release ends one: itself, or those that it is made after where it has no release."""
        row = self.plant.library.conditions[condition]
        if row.release or not row.after:
            return (condition,)
        return tuple(dict.fromkeys(name for earlier in row.after for name in self._ended_by(earlier)))

    # -- proving

    def _prove(self) -> None:
        proofs = self.plant.library.proofs
        for name, demand in self.demanded.items():
            proof = proofs[name]
            acts = legs(proof.step, ("prove", name), "prove", "prove", self.plant, proof.cautions, proof=name)
            if proof.names_joints and demand.joints:
                acts[0] = _naming(acts[0], [wording.ends(self.joints[j], self.plant) for j in demand.joints])
            self.proofs[name] = self.programme.add_chain(acts)
        closing = [key for key in self.programme.acts if key[0] in ("fit", "remake")]
        for name, ends in self.proofs.items():
            proof = proofs[name]
            for doing in self._closed_before(name):
                self.programme.require(self.back(doing), ends.first)
            for other in proof.after:
                if other in self.proofs:
                    self.programme.require(self.proofs[other].last, ends.first)
            if proof.stage != "open":
                for key in closing:
                    self.programme.require(key, ends.first)
            if proof.stage == "live":
                for other, earlier in self.proofs.items():
                    if proofs[other].stage != "live":
                        self.programme.require(earlier.last, ends.first)
            self._plant_state(name, ends)
            for condition, release in self.releases.items():
                if name in self.plant.library.conditions[condition].release_after:
                    self.programme.require(ends.last, release.first)
        self._running_last()

    def _plant_state(self, name: str, ends: Ends) -> None:
        """Dead before the release of what it needs held; charged after its circuits are released; running after all."""
        proof = self.plant.library.proofs[name]
        if proof.plant == "dead":
            for condition in proof.held:
                if condition in self.releases:
                    self.programme.require(ends.last, self.releases[condition].first)
        elif proof.plant == "charged":
            brought = set(self.demanded[name].doings)
            held = {key[1] for key, doing in self.held if doing in brought}
            held.update(*(self._isolations_of_work(doing) for doing in brought if doing[0] == "work"))
            for condition in sorted(held):
                for other in self._standing_on(condition):
                    if other in self.releases and name not in self.plant.library.conditions[other].release_after:
                        self.programme.require(self.releases[other].last, ends.first)
        if proof.plant == "running" or proof.stage == "live":
            for release in self.releases.values():
                self.programme.require(release.last, ends.first)

    def _isolations_of_work(self, doing: Key) -> set[str]:
        """The conditions that a task asks for and that isolate a circuit: released, they charge it again."""
        makes = {isolation.makes for circuit in self.plant.assembly.circuit for isolation in circuit.isolate}
        return makes & {*self.wanted[int(doing[1])].work.conditions}

    def _standing_on(self, condition: str) -> tuple[str, ...]:
        """A condition and all those that it is made after."""
        found = [condition]
        for name in found:
            found += [other for other in self.plant.library.conditions[name].after if other not in found]
        return tuple(found)

    def _closed_before(self, name: str) -> list[Key]:
        """What must be closed again before a proof: the joints that brought it, and the lifts with their joints."""
        brought = [doing for doing in self.demanded[name].doings if doing[0] in PHYSICAL]
        with_lifts = [
            key for doing in brought if doing[0] in LIFTING for key in self.doings[doing] if key[0] in UNDOING
        ]
        return list(dict.fromkeys(brought + with_lifts))

    def _running_last(self) -> None:
        """What is proved dead or charged is proved before the plant runs, where no rule says otherwise."""
        proofs = self.plant.library.proofs
        for name, ends in self.proofs.items():
            for other, later in self.proofs.items():
                if proofs[name].plant != "running" and proofs[other].plant == "running":
                    self.programme.prefer(ends.last, later.first)

    def _covers_wait(self) -> None:
        """Covers in front of what is proved in sight stay off until the proof is done; where they cannot, say so."""
        for name, ends in self.proofs.items():
            proof = self.plant.library.proofs[name]
            if proof.stage != "open":
                continue
            for what, place, behind in self._in_sight(name):
                for cover in dict.fromkeys(cover for names in behind for cover in names):
                    fit = ("fit", cover)
                    if fit in self.programme.acts and not self.programme.prefer(ends.last, fit):
                        self._hidden(what, place, cover, proof.title)

    def _in_sight(self, name: str) -> Iterator[tuple[str, Place, Behind]]:
        """What an open-stage proof looks at, with what it stands behind: joints, and components that brought it."""
        for doing in self.demanded[name].doings:
            if doing[0] in UNDOING:
                joint = self.joints[doing[1]]
                yield f"the joint {wording.ends(joint, self.plant)}", joint.place, joint.behind
            else:
                component = self.wanted[int(doing[1])].component if doing[0] == "work" else None
                if doing[0] in LIFTING:
                    component = self.plant.component(doing[1])
                if component is not None:
                    behind = tuple(names for way in component.ways for names in way.behind)
                    yield f"the {component.title}", component.place, behind

    def _hidden(self, what: str, place: Place, cover: str, proof: str) -> None:
        self.notices.append(
            Notice(
                "hidden-joint",
                f"{proof}: {what} must be proved with the {self.plant.component(cover).title} in front of it",
                place,
                "look past it with a torch and a mirror",
            )
        )

    def _close_first(self) -> None:
        """What need not stay open for a proof goes back before any condition is released and before any proof."""
        closing = [key for key in self.programme.acts if key[0] in ("fit", "remake")]
        for ends in (*self.releases.values(), *self.proofs.values()):
            for key in closing:
                self.programme.prefer(key, ends.first)

    def _hand_over(self) -> None:
        proof = self.plant.library.proofs.get(HAND_OVER)
        if proof is None:
            return
        acts = legs(proof.step, (HAND_OVER,), "hand-over", "record", self.plant, proof.cautions)
        everything = list(self.programme.acts)
        ends = self.programme.add_chain(acts)
        for key in everything:
            self.programme.require(key, ends.first)


def _naming(act: Act, joints: list[str]) -> Act:
    first = act.lines[0]
    text = f"{first.text.rstrip('.')}: {'; '.join(dict.fromkeys(joints))}."
    return replace(act, lines=(replace(first, text=text), *act.lines[1:]))
