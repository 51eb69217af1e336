"""The chosen acts written down: numbered steps with times, cautions and reasons, and the lists that go with them."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Any

from splitpin.notices import Notice
from splitpin.planning.asked.expand import Wanted
from splitpin.planning.best.choose import Candidate, Choice
from splitpin.planning.best.schedule import Slot, schedule
from splitpin.planning.best.tidy import tidy
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import Doing, Lift, Make, Undo
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme import tightening
from splitpin.planning.programme.acts import HandOver, Part, Prove, PutBack, Release
from splitpin.planning.written import kit, readings
from splitpin.planning.written.chosen import chosen
from splitpin.planning.written.course import Course, Done
from splitpin.planning.written.licences import licences
from splitpin.planning.written.lifts import Lifts
from splitpin.planning.written.messages import Messages, front
from splitpin.planning.written.why import Why, of_proof
from splitpin.records.plan import (
    Licence,
    Opened,
    OpenedComponent,
    PlanCalculation,
    PlanChoice,
    PlanCondition,
    PlanPart,
    PlanProof,
    PlanTool,
    Step,
    StepCaution,
    Times,
)

if TYPE_CHECKING:
    from splitpin.records.assembly import Joint


@dataclass(frozen=True, slots=True)
class Written:
    """The fields of a plan that come from its acts, the notices about them, and the course they were written from."""

    conditions: tuple[PlanCondition, ...]
    steps: tuple[Step, ...]
    opened: Opened
    tools: tuple[PlanTool, ...]
    parts: tuple[PlanPart, ...]
    proofs: tuple[PlanProof, ...]
    calculations: tuple[PlanCalculation, ...]
    cautions: tuple[StepCaution, ...]
    times: Times
    people: int
    licences: tuple[Licence, ...]
    choice: PlanChoice
    notices: tuple[Notice, ...]
    course: Course

    def fields(self) -> dict[str, Any]:
        """Everything but the notices and the course, by the plan's field names."""
        names = [item.name for item in fields(self) if item.name not in ("notices", "course")]
        return {name: getattr(self, name) for name in names}


def write(choice: Choice, graph: Graph, plant: Plant, wanted: tuple[Wanted, ...]) -> Written:
    """The plan's rows from the chosen acts in their order."""
    return _Writer(choice, graph, plant, wanted).written()


class _Writer:
    def __init__(self, choice: Choice, graph: Graph, plant: Plant, wanted: tuple[Wanted, ...]) -> None:
        self.choice = choice
        self.candidate: Candidate = choice.candidate
        self.plant = plant
        self.wanted = wanted
        self.why = Why(self.candidate.opening, graph, plant)
        order = tidy(self.candidate.strip.problem(plant), choice.strip.order)
        self.strip = schedule(self.candidate.strip, order, plant, 0)
        turn = choice.strip.elapsed_s
        order = tidy(self.candidate.refit.programme.problem(plant), choice.refit.order)
        self.refit = schedule(self.candidate.refit.programme, order, plant, turn)
        self.lifts = Lifts(self.candidate.doings, plant)
        self.steps: list[Step] = []
        self.done: list[Done] = []
        self.step_of: dict[Part, int] = {}
        self.consumables: dict[str, str] = {}

    def written(self) -> Written:
        messages = Messages(self.plant)
        for slot in (*self.strip, *self.refit):
            self._slot(slot, messages)
            if isinstance(slot.act.part, Release):
                messages.released(slot.act.part.made.name)
        steps = tuple(self.steps)
        end = max([self.refit[-1].end_s] if self.refit else [self.strip[-1].end_s])
        hands_on = sum(step.seconds for step in steps)
        proofs = self._proofs()
        return Written(
            conditions=self._conditions(),
            steps=steps,
            opened=self._opened(),
            tools=kit.tools(steps, self.plant),
            parts=kit.parts(self.candidate.doings, self.consumables, self.plant, self.wanted),
            proofs=proofs,
            calculations=readings.others([self.plant.library.proofs[row.id] for row in proofs], self.plant),
            cautions=front(step.cautions for step in steps),
            times=Times(hands_on_s=hands_on, waiting_s=end - hands_on, elapsed_s=end),
            people=max([self.plant.visit.job.job.people, *(step.people for step in steps)]),
            licences=licences(steps, self.plant),
            choice=chosen(self.choice, (*self.strip, *self.refit), hands_on),
            notices=(
                *self.candidate.refit.notices,
                *self._lifts(),
                *self.lifts.notices(),
                *tightening.notices(self._undone(), self.plant),
                *self._limits(proofs),
                *self._not_owned(),
            ),
            course=Course(self.plant, self.wanted, self.choice, self.why, tuple(self.done)),
        )

    # -- steps

    def _slot(self, slot: Slot, messages: Messages) -> None:
        act = slot.act
        start = slot.start_s
        because = self._because(act.part)
        self.step_of[act.part] = len(self.steps) + 1
        for number, line in enumerate(act.lines):
            seconds = line.seconds + (slot.setup_s if number == 0 else 0)
            lifted = act.component if line.action in ("take", "fit") else None
            why_so_many = () if lifted is None else self.lifts.reasons(lifted, line.people)
            self.steps.append(
                Step(
                    n=len(self.steps) + 1,
                    phase=act.phase,
                    action=line.action,
                    text=line.text,
                    component=act.component,
                    joint=line.joint or act.joint,
                    condition=act.condition,
                    proof=act.proof,
                    tools=line.tools,
                    position=act.position,
                    people=line.people,
                    seconds=seconds,
                    wait_s=line.wait_s,
                    start_s=start,
                    cautions=messages.before(line.cautions),
                    seals=line.seals,
                    torque_nm=line.torque_nm,
                    record=line.record,
                    lift=None if lifted is None else self.lifts.words(lifted, line.people),
                    because=(*why_so_many, *because, *line.because),
                )
            )
            for part in line.consumables:
                self.consumables.setdefault(part, f"step {len(self.steps)}: {line.text}")
            start += seconds
        self.done.append(Done(slot, tuple(self.steps[-len(act.lines) :])))

    def _because(self, part: Part) -> tuple[str, ...]:
        match part:
            case PutBack():
                return (f"step {self.step_of[part.opened]} opened it",)
            case Release():
                return (f"what needed this is back: {part.made.title}",)
            case Prove():
                return of_proof(self.candidate.demanded[part.proof.id])
            case HandOver():
                return ("every visit ends with it",)
        return self.why.chain(part)

    # -- lists

    def _conditions(self) -> tuple[PlanCondition, ...]:
        return tuple(
            PlanCondition(id=doing.name, title=doing.title, already=doing.already, because=self.why.chain(doing))
            for doing in self.candidate.doings
            if isinstance(doing, Make)
        )

    def _opened(self) -> Opened:
        lifts = {doing.component.id: doing for doing in self.candidate.doings if isinstance(doing, Lift)}
        assembly = self.plant.assembly
        joints = self._undone()
        on = {joint.circuit for joint in joints}
        return Opened(
            components=tuple(
                OpenedComponent(id=c.id, title=c.title, ends=lifts[c.id].ends, after=self._left_before(lifts[c.id]))
                for c in assembly.component
                if c.id in lifts
            ),
            joints=tuple(joint.id for joint in joints),
            circuits=tuple(circuit.id for circuit in assembly.circuit if circuit.id in on),
        )

    def _left_before(self, lift: Lift) -> tuple[str, ...]:
        """The components whose leaving lets this one go: the nearest lifts before it, sorted."""
        found: set[str] = set()
        met: set[Doing] = set()
        behind = list(self.candidate.doings[lift])
        while behind:
            doing = behind.pop()
            if doing in met:
                continue
            met.add(doing)
            if isinstance(doing, Lift):
                found.add(doing.component.id)
            else:
                behind.extend(self.candidate.doings[doing])
        return tuple(sorted(found))

    def _undone(self) -> tuple[Joint, ...]:
        """The joints that the plan undoes and remakes, in file order."""
        undone = {doing.joint.id for doing in self.candidate.doings if isinstance(doing, Undo)}
        return tuple(joint for joint in self.plant.assembly.joint if joint.id in undone)

    def _proofs(self) -> tuple[PlanProof, ...]:
        """In the order in which they run."""
        rows = []
        for name in dict.fromkeys(step.proof for step in self.steps if step.proof is not None):
            proof = self.plant.library.proofs[name]
            demand = self.candidate.demanded[name]
            rows.append(
                PlanProof(
                    id=name,
                    title=proof.title,
                    stage=proof.stage,
                    joints=tuple(joint.id for joint in demand.joints),
                    readings=readings.readings(proof, self.plant),
                    calculations=readings.calculations(proof, self.plant),
                    failure=proof.failure,
                    because=of_proof(demand),
                )
            )
        return tuple(rows)

    # -- notices

    def _lifts(self) -> list[Notice]:
        has = self.plant.visit.job.job.people
        found = []
        for step in self.steps:
            if step.people > 1 and step.component is not None and step.action == "take":
                component = self.plant.component(step.component)
                weight = f"{self.plant.load_kg(component):g} kg"
                code = "two-people" if step.people <= has else "too-few-people"
                message = f"lifting the {component.title} ({weight}) takes {step.people} people; the job has {has}"
                found.append(Notice(code, message, component.place, "bring a second person or a lifting aid"))
        return found

    def _limits(self, proofs: tuple[PlanProof, ...]) -> list[Notice]:
        return [
            notice
            for proof in proofs
            for notice in readings.missing(self.plant.library.proofs[proof.id], proof.readings)
        ]

    def _not_owned(self) -> list[Notice]:
        used = sorted({tool for step in self.steps for tool in step.tools if not self.plant.owned(tool)})
        return [
            Notice("tool-not-owned", f"the firm's list has no {self.plant.library.tools[tool].title}", place)
            for tool in used
            for place in (self.plant.visit.firm.firm.place,)
        ]
