"""What an assembly takes to maintain: how deep its repairs lie, how long they take, whether its joints go back.

Every cause of every symptom is planned as a visit of its own: one person, clean plant, a firm of usual ways and no
allowance. Times are elapsed: from making safe to hand-over, waits included, finding the fault left out. How often one
symptom comes beside another is not known, so each counts alike, and within it the causes by their likelihood.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

import splitpin
from splitpin.hardware.fixing import Fixing
from splitpin.hardware.resolving import resolve
from splitpin.planning.asked.expand import REPLACE, offered
from splitpin.records.assembly import Assembly, Component
from splitpin.records.catalogue import Reuse
from splitpin.records.firm import FirmFile, FirmHead, FirmTimes
from splitpin.records.job import JobFile, JobHead, Task
from splitpin.records.library import Library, Visit
from splitpin.timing.depth import moved_first, steps_to_reach
from splitpin.timing.elements import log_sd
from splitpin.timing.estimate import estimate
from splitpin.timing.repair_times import RepairTimes, over_all, weighted_mean
from splitpin.timing.replanning import planned_again

QUESTIONS = 20_000  # how often the search of one repair may ask whether to stop
CLASSES: tuple[Reuse, ...] = ("reusable", "n-times", "inspect", "renew")

# A tool out of the open box, a step round the plant: common practice, no source.
_FIRM = FirmFile(
    format=1,
    firm=FirmHead(id="any-firm", title="any firm", jurisdiction="general"),
    times=FirmTimes(pickup_s=5, move_s=8, basis="common practice"),
)


class Repair(NamedTuple):
    """One repair: its share of all, steps by the public rule, what moves first, expected seconds; or why not."""

    component: str
    task: str
    phrase: str
    share: float
    steps: int
    moved_first: int
    tools: int
    hands_on_s: int
    elapsed_s: int
    proved: bool
    refused: str | None = None


class JointClass(NamedTuple):
    """Joints and pieces of one re-use class; `share` of all joints."""

    reuse: Reuse
    joints: int
    pieces: int
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Maintainability:
    """The figures of an assembly; times in seconds. None where no repair of it can be planned.

    `planned_share` is the share of all repairs that the times rest on; `by_symptoms` is false where the assembly names
    no symptom and every part that can be replaced counts alike.
    """

    splitpin: str
    assembly: str
    title: str
    by_symptoms: bool
    repairs: tuple[Repair, ...]
    planned_share: float
    mean_repair_s: int | None
    median_repair_s: int | None
    within_90_s: int | None
    within_95_s: int | None
    mean_steps: float | None
    most_steps: int | None
    joints: tuple[JointClass, ...]


def maintainability(name: str, library: Library) -> Maintainability:
    """The figures of the assembly of this id, which the library has. Cost: a plan and an estimate for each repair."""
    assembly = library.assemblies[name]
    shares = _shares(assembly)
    rows: list[Repair] = []
    times: list[tuple[float, float, RepairTimes]] = []
    for (component, do), share in shares.items():
        row, time = _repair(component, do, share, assembly, library)
        rows.append(row)
        if time is not None:
            times.append((share, *time))
    planned = [row for row in rows if row.refused is None]
    rates = [share for share, _, _ in times]
    whole = over_all(rates, [log for _, _, log in times]) if times else None
    return Maintainability(
        splitpin=splitpin.__version__,
        assembly=assembly.assembly.id,
        title=assembly.assembly.title,
        by_symptoms=bool(assembly.symptom),
        repairs=tuple(sorted(rows, key=lambda row: -row.share)),
        planned_share=round(sum(rates), 4),
        mean_repair_s=round(weighted_mean(rates, [mean for _, mean, _ in times])) if times else None,
        median_repair_s=round(whole.median) if whole else None,
        within_90_s=round(whole.within(90)) if whole else None,
        within_95_s=round(whole.within(95)) if whole else None,
        mean_steps=round(weighted_mean(rates, [row.steps for row in planned]), 1) if planned else None,
        most_steps=max((row.steps for row in planned), default=None),
        joints=tuple(_classes(assembly, library)),
    )


def _shares(assembly: Assembly) -> dict[tuple[Component, str], float]:
    """Each repair's share of all, in the order of the file; they sum to 1."""
    components = {component.id: component for component in assembly.component}
    found: dict[tuple[str, str], float] = {}
    for symptom in assembly.symptom:
        whole = sum(row.likelihood for row in symptom.suspects)
        for row in symptom.suspects:
            key = (row.component, row.task)
            found[key] = found.get(key, 0.0) + row.likelihood / whole / len(assembly.symptom)
    if not found:
        able = [component.id for component in assembly.component if REPLACE in offered(component)]
        found = {(name, REPLACE): 1 / len(able) for name in able}
    return {(components[name], do): share for (name, do), share in found.items()}


def _repair(
    component: Component, do: str, share: float, assembly: Assembly, library: Library
) -> tuple[Repair, tuple[float, RepairTimes] | None]:
    phrase = f"{do.replace('-', ' ')} the {component.title}"
    head = JobHead(reference="repair", title=phrase, assembly=assembly.assembly.id)
    job = JobFile(format=1, job=head, task=(Task(do=do, component=component.id),))
    visit = Visit(job, _FIRM, library)
    planned = planned_again(visit, QUESTIONS)
    if planned is None:
        closed = component.closed_to
        reason = f"only {library.licences[closed].person} may open it" if closed else "there is no plan for it"
        return Repair(component.id, do, phrase, share, 0, 0, 0, 0, 0, False, reason), None
    plan, found = planned.plan, estimate(planned)
    mean, spread = found.elapsed.mean, log_sd(found.elapsed.mean, found.elapsed.sd)
    row = Repair(
        component=component.id,
        task=do,
        phrase=phrase,
        share=round(share, 4),
        steps=steps_to_reach(plan, assembly),
        moved_first=moved_first(plan, component.id),
        tools=len(plan.tools),
        hands_on_s=round(found.hands_on.mean),
        elapsed_s=round(mean),
        proved=plan.status == "proved",
    )
    return row, (mean, RepairTimes(math.log(mean) - spread**2 / 2, spread))


def _classes(assembly: Assembly, library: Library) -> Iterator[JointClass]:
    """Every class, the best first; a joint's class is that of its pieces, its seal apart."""
    joints: dict[Reuse, list[int]] = {reuse: [] for reuse in CLASSES}
    for joint in assembly.joint:
        fixing = resolve(joint.hardware, library)
        if isinstance(fixing, Fixing):
            joints[fixing.reuse].append(joint.count)
    whole = sum(map(len, joints.values()))
    for reuse, counts in joints.items():
        yield JointClass(reuse, len(counts), sum(counts), round(len(counts) / whole, 4) if whole else 0.0)
