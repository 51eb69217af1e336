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
from splitpin.planning.plant.doings import (
    Doings,
    Fit,
    HandOver,
    LiftAtBench,
    Lifting,
    Make,
    Node,
    Physical,
    Prove,
    Release,
    Remake,
    Undo,
    UndoAtBench,
    Undoing,
    Work,
    back,
)
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme import tightening, wording
from splitpin.planning.programme.acts import Act, Ends, Line, Programme
from splitpin.planning.programme.demands import Demand
from splitpin.planning.programme.strip import bearing_joints, held_by, in_turn, legs

if TYPE_CHECKING:
    from splitpin.records.assembly import Joint
    from splitpin.records.base import Behind

HAND_OVER = "hand-over"  # the proof that every visit ends with


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
        self.new = {w.component.id for w in wanted if w.component is not None and w.do == REPLACE}
        self.held = held_by(opening, graph)
        self.programme = Programme()
        self.with_fit: dict[Node, Node] = {}
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
        physical = [doing for doing in self.doings if isinstance(doing, Physical)]
        bearing = bearing_joints(self.doings, self.plant)
        for doing in reversed(physical):
            if isinstance(doing, Lifting) and doing in bearing:
                fit, made = self._fit_act(doing), self._remake_act(bearing[doing])
                self.programme.add(
                    replace(fit, lines=(*fit.lines, *(replace(line, joint=made.joint) for line in made.lines)))
                )
                self.with_fit[back(bearing[doing])] = fit.key
            elif doing not in bearing.values():
                self.programme.add(self._remake_act(doing) if isinstance(doing, Undoing) else self._fit_act(doing))
        for doing in physical:
            for other in self.doings[doing]:
                if isinstance(other, Physical):
                    self.programme.require(self.back(doing), self.back(other))
        for earlier, later in in_turn(self.doings, self.plant):
            self.programme.prefer(self.back(later), self.back(earlier))

    def back(self, doing: Physical) -> Node:
        """The key of the act that puts right what a strip doing opened; a bearing joint is remade with its lift."""
        key = back(doing)
        return self.with_fit.get(key, key)

    def _fit_act(self, doing: Lifting) -> Act:
        component = doing.component
        new = component.id in self.new
        seals = [
            self._seal_line(joint)
            for joint in self._opened_joints(doing)
            if self._seal_goes_before(joint) == component.id
        ]
        if isinstance(doing, LiftAtBench):
            time = elements.handling(component, None, self.plant.load_kg(component), self.plant.library)
            text = wording.fit_at_bench(component, self.plant, new=new, new_carrier=component.carried_by in self.new)
            line = Line("fit", text, time.on_s, people=time.people)
            return Act(back(doing), "refit", (*seals, line), doing.position, component=component.id)
        way = doing.way
        time = elements.handling(component, way, self.plant.load_kg(component), self.plant.library)
        line = Line(
            "fit",
            wording.fit(component, way, time.people, new=new),
            time.on_s,
            tools=self.plant.chosen(way.tools),
            cautions=component.cautions,
            people=time.people,
        )
        return Act(back(doing), "refit", (*seals, line), doing.position, component=component.id)

    def _opened_joints(self, doing: Lifting) -> list[Joint]:
        return [key.joint for key in self.doings[doing] if isinstance(key, Undoing)]

    def _seal_goes_before(self, joint: Joint) -> str | None:
        """The component whose fitting the new seal must precede: the first end of the joint that was lifted off it."""
        if joint.seal is None or self.plant.library.seals[joint.seal].placed != "before-positioning":
            return None
        undone = {Undo(joint), UndoAtBench(joint)}
        groups = [
            (doing.component.id, self.plant.group(doing.component))
            for doing, earlier in self.doings.items()
            if isinstance(doing, Lifting) and undone & {*earlier}
        ]
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

    def _remake_act(self, doing: Undoing) -> Act:
        joint = doing.joint
        here = joint.seal is not None and self._seal_goes_before(joint) is None
        seals = [self._seal_line(joint)] if here else []
        return Act(back(doing), "refit", (*seals, *tightening.lines(joint, self.plant)), doing.position, joint=joint.id)

    # -- releasing

    def _release(self) -> None:
        conditions = self.plant.library.conditions
        for made in [doing for doing in self.doings if isinstance(doing, Make)]:
            name, release = made.condition.id, Release(made.condition)
            acts = legs(made.condition.release, release, "release", "release", self.plant, (), condition=name)
            if acts:
                self.releases[name] = self.programme.add_chain(acts)
        for key, doing in sorted(self.held):
            for name in self._ended_by(key.condition.id):
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
            acts = legs(proof.step, Prove(proof), "prove", "prove", self.plant, proof.cautions, proof=name)
            if proof.names_joints and demand.joints:
                acts[0] = _naming(acts[0], [self.plant.ends(self.plant.joint(j)) for j in demand.joints])
            self.proofs[name] = self.programme.add_chain(acts)
        closing = [key for key in self.programme.acts if isinstance(key, Fit | Remake)]
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
            held = {key.condition.id for key, doing in self.held if doing in brought}
            held.update(*(self._isolations_of_work(doing) for doing in brought if isinstance(doing, Work)))
            for condition in sorted(held):
                for other in self._standing_on(condition):
                    if other in self.releases and name not in self.plant.library.conditions[other].release_after:
                        self.programme.require(self.releases[other].last, ends.first)
        if proof.plant == "running" or proof.stage == "live":
            for release in self.releases.values():
                self.programme.require(release.last, ends.first)

    def _isolations_of_work(self, doing: Work) -> set[str]:
        """The conditions that a task asks for and that isolate a circuit: released, they charge it again."""
        makes = {isolation.makes for circuit in self.plant.assembly.circuit for isolation in circuit.isolate}
        return makes & {*doing.wanted.work.conditions}

    def _standing_on(self, condition: str) -> tuple[str, ...]:
        """A condition and all those that it is made after."""
        found = [condition]
        for name in found:
            found += [other for other in self.plant.library.conditions[name].after if other not in found]
        return tuple(found)

    def _closed_before(self, name: str) -> list[Physical]:
        """What must be closed again before a proof: the joints that brought it, and the lifts with their joints."""
        brought: list[Physical] = [doing for doing in self.demanded[name].doings if isinstance(doing, Physical)]
        with_lifts: list[Physical] = [
            key
            for doing in brought
            if isinstance(doing, Lifting)
            for key in self.doings[doing]
            if isinstance(key, Undoing)
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
                    fit = Fit(self.plant.component(cover))
                    if fit in self.programme.acts and not self.programme.prefer(ends.last, fit):
                        self._hidden(what, place, cover, proof.title)

    def _in_sight(self, name: str) -> Iterator[tuple[str, Place, Behind]]:
        """What an open-stage proof looks at, with what it stands behind: joints, and components that brought it."""
        for doing in self.demanded[name].doings:
            if isinstance(doing, Undoing):
                joint = doing.joint
                yield f"the joint {self.plant.ends(joint)}", joint.place, joint.behind
            else:
                component = None
                if isinstance(doing, Work):
                    component = doing.wanted.component
                elif isinstance(doing, Lifting):
                    component = doing.component
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
        closing = [key for key in self.programme.acts if isinstance(key, Fit | Remake)]
        for ends in (*self.releases.values(), *self.proofs.values()):
            for key in closing:
                self.programme.prefer(key, ends.first)

    def _hand_over(self) -> None:
        proof = self.plant.library.proofs.get(HAND_OVER)
        if proof is None:
            return
        acts = legs(proof.step, HandOver(proof), "hand-over", "record", self.plant, proof.cautions)
        everything = list(self.programme.acts)
        ends = self.programme.add_chain(acts)
        for key in everything:
            self.programme.require(key, ends.first)


def _naming(act: Act, joints: list[str]) -> Act:
    first = act.lines[0]
    text = f"{first.text.rstrip('.')}: {'; '.join(dict.fromkeys(joints))}."
    return replace(act, lines=(replace(first, text=text), *act.lines[1:]))
