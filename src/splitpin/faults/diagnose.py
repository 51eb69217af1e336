"""A job's symptoms to a diagnosis: the suspects, what each check needs open, the sequence, what each repair takes.

What a check needs open is read off its own plan: the lines before its work. Lines that two plans share are done once,
and what has come off for one check stays off for the next.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

import splitpin
from splitpin.faults.check import expected_seconds
from splitpin.faults.problem import CheckProblem
from splitpin.faults.search import best_checks
from splitpin.faults.suspects import Case, Cause, cases, symptoms_of
from splitpin.notices import Notice, in_order
from splitpin.records.diagnosis import (
    CheckToMake,
    Comparison,
    Diagnosis,
    DiagnosisSuspect,
    DiagnosisSymptom,
    Reach,
    Repair,
)
from splitpin.records.library import Visit
from splitpin.records.plan import Plan, PlanNotice, Step
from splitpin.units import seconds as whole_seconds

OPENING = ("make-safe", "strip")
ELECTRICAL = "electrical-work"  # the licence of every medium that carries mains
MILLION = 1_000_000  # likelihoods as whole parts of a million, so that sequences compare exactly

OTHERWISE = "None of them: look wider before anything is replaced, and ring the office."


class Line(NamedTuple):
    """What makes a step of two plans the same step."""

    phase: str
    action: str
    component: str | None
    joint: str | None
    condition: str | None
    proof: str | None
    text: str

    @classmethod
    def of(cls, step: Step) -> Line:
        """The line of a step."""
        return cls(step.phase, step.action, step.component, step.joint, step.condition, step.proof, step.text)


def diagnose(
    visit: Visit,
    *,
    counted: Mapping[str, Mapping[Cause, float]] | None = None,
    visits: int = 0,
    stop: Callable[[], bool] | None = None,
    said: tuple[Notice, ...] = (),
) -> Diagnosis:
    """The diagnosis of the job's symptoms; `counted` are likelihoods learnt from `visits` records, by symptom.

    A job without symptoms gives one that is impossible and says so. Every suspect is planned twice: time grows with
    their number; the sequence itself is found in milliseconds.
    """
    symptoms = symptoms_of(visit)
    if not symptoms:
        hint = "name one of the assembly's symptoms: `symptoms = [...]` under [job]"
        notice = Notice("no-symptom", "the job names no symptom: there is nothing to diagnose", visit.place, hint)
        return _head(visit, (*said, notice), status="impossible")
    found = cases(visit, counted, stop)
    lines = _Lines(found, supply_seconds(visit))
    answer = best_checks(lines.problem, stop)
    rows = tuple(_rows(found, answer.order, lines))
    status = "proved" if answer.proved else "bounded"
    return _head(
        visit,
        said,
        status=status,
        gap_s=-(-answer.gap // answer.total_weight),
        expected_find_s=whole_seconds(answer.expected_s / 60),
        expected_finish_s=whole_seconds(sum(row.likelihood * row.finish_s for row in rows) / 60),
        visits=visits,
        suspects=rows,
        comparison=_comparison(lines.problem),
    )


def _head(visit: Visit, notices: tuple[Notice, ...], **fields: object) -> Diagnosis:
    assembly, job = visit.assembly.assembly, visit.job.job
    return Diagnosis.model_validate(
        {
            "splitpin": splitpin.__version__,
            "job": job.reference,
            "title": job.title,
            "assembly": assembly.id,
            "assembly_title": assembly.title,
            "symptoms": tuple(DiagnosisSymptom(id=row.id, title=row.title) for row in symptoms_of(visit)),
            "otherwise": OTHERWISE,
            "notices": tuple(PlanNotice.of(notice) for notice in in_order(notices)),
            **fields,
        }
    )


class _Lines:
    """The lines of all plans: each opening line of a check with its seconds, and the sequence as plain numbers."""

    def __init__(self, found: tuple[Case, ...], supply: Mapping[str, int]) -> None:
        self.seconds: dict[Line, int] = {}
        self.words: dict[Line, str] = {}
        self.brief: dict[Line, str] = {}  # the state made, or the component that leaves
        self.before: list[tuple[Line, ...]] = []
        checks = []
        for case in found:
            own = []
            states = {row.id: row.title for row in case.checking.conditions}
            moved = {row.id: f"{row.title} {row.ends}" for row in case.checking.opened.components}
            for step, taken in _timed(case.checking):
                if step.phase in OPENING:
                    line = Line.of(step)
                    own.append(line)
                    self.words[line] = step.text
                    if step.condition in states:
                        self.brief[line] = states[step.condition]
                    elif step.action == "take" and step.component in moved:
                        self.brief[line] = moved[step.component]
                    self.seconds[line] = max(taken, self.seconds.get(line, 0))
            self.before.append(tuple(own))
            checks.append(whole_seconds(case.row.check.min))
        self.numbers = numbers = {line: number for number, line in enumerate(self.seconds)}
        self.problem = CheckProblem(
            tuple(max(1, round(case.likelihood * MILLION)) for case in found),
            tuple(checks),
            tuple(frozenset(numbers[line] for line in own) for own in self.before),
            tuple(self.seconds.values()),
            tuple(sum(supply.values()) if case.row.check.live else 0 for case in found),
            frozenset(numbers[line] for line in self.seconds if line.action == "make" and line.condition in supply),
        )


def _rows(found: tuple[Case, ...], order: tuple[int, ...], lines: _Lines) -> Iterator[DiagnosisSuspect]:
    done: dict[Line, None] = {}
    closing: dict[Line, int] = {}
    clock = 0
    for n, suspect in enumerate(order, 1):
        case = found[suspect]
        reach = [line for line in lines.before[suspect] if line not in done]
        done |= dict.fromkeys(reach)
        opening = sum(lines.seconds[line] for line in reach)
        opened = frozenset(lines.numbers[line] for line in done)
        supply = lines.problem.interrupted(suspect, opened)
        checking = lines.problem.seconds[suspect] + supply
        clock += opening + checking
        for step, taken in _timed(case.checking):
            if step.phase not in (*OPENING, "work"):
                closing.setdefault(Line.of(step), taken)
        yield DiagnosisSuspect(
            n=n,
            component=case.component.id,
            title=case.component.title,
            task=case.row.task,
            likelihood=round(case.likelihood, 6),
            origin=case.origin,
            check=CheckToMake(
                needs=case.row.check.needs,
                steps=case.row.check.steps or (f"Check the {case.component.title}.",),
                seconds=checking,
                live=case.row.check.live,
                supply_s=supply,
                reach=tuple(Reach(text=lines.words[line], seconds=lines.seconds[line]) for line in reach),
                opens=tuple(dict.fromkeys(lines.brief[line] for line in reach if line in lines.brief)),
                opening_s=opening,
            ),
            found_s=clock,
            finish_s=clock + _rest(case.repair, done, closing),
            repair=_repair(case.repair),
            because=(f"suspect of “{case.symptoms[0].title}” ({case.row.place})",),
        )


def _rest(repair: Plan, done: dict[Line, None], closing: dict[Line, int]) -> int:
    """What the repair still takes after its check, with closing up what only the checks have opened."""
    if repair.status == "impossible":
        return sum(closing.values())
    own = {Line.of(step): taken for step, taken in _timed(repair)}
    rest = sum(taken for line, taken in own.items() if line not in done)
    return rest + sum(taken for line, taken in closing.items() if line not in own)


def _repair(plan: Plan) -> Repair:
    if plan.status == "impossible":
        reason = (
            plan.refused[0].reason
            if plan.refused
            else next((n.message for n in plan.notices if n.severity == "error"), None)
        )
        return Repair(status="impossible", reason=reason)
    return Repair(
        status=plan.status,
        hands_on_s=plan.times.hands_on_s,
        elapsed_s=plan.times.elapsed_s,
        people=plan.people,
        parts=plan.parts,
        tools=plan.tools,
        licences=plan.licences,
    )


def _comparison(problem: CheckProblem) -> Comparison:
    everyone = range(len(problem.weights))
    likeliest = tuple(sorted(everyone, key=lambda one: -problem.weights[one]))
    cheapest = tuple(sorted(everyone, key=lambda one: problem.seconds[one]))
    return Comparison(
        likeliest_first_s=whole_seconds(float(expected_seconds(problem, likeliest)) / 60),
        cheapest_first_s=whole_seconds(float(expected_seconds(problem, cheapest)) / 60),
    )


def _timed(plan: Plan) -> Iterator[tuple[Step, int]]:
    """Each step with its own seconds and the idle ones that follow it."""
    ends = [step.start_s for step in plan.steps[1:]] + [plan.times.elapsed_s]
    for step, end in zip(plan.steps, ends, strict=True):
        yield step, end - step.start_s


def supply_seconds(visit: Visit) -> dict[str, int]:
    """The states that take the plant's electricity away, each with the seconds of ending it and making it again."""
    library = visit.library
    electric = [row for row in visit.assembly.circuit if library.media[row.medium].licence == ELECTRICAL]
    names = dict.fromkeys(way.makes for circuit in electric for way in circuit.isolate)
    found = {}
    for name in names:
        steps = (*library.conditions[name].release, *library.conditions[name].make)
        found[name] = whole_seconds(sum(step.min + (step.wait_min or 0) for step in steps))
    return found
