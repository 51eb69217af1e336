"""Why each step, part and proof is there, gathered for the last page, where it is out of the engineer's way."""

from dataclasses import dataclass
from itertools import groupby

from splitpin.records.plan import Plan
from splitpin.sheets import wording


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """What is explained, and the chain of rules that put it there."""

    subject: str
    lines: tuple[str, ...]


def reasons(plan: Plan) -> tuple[Reason, ...]:
    """Steps first, neighbours with the same reasons as one; then conditions, licences, parts, proofs.

    The tools' reasons are the steps that use them, which the list of tools gives.
    """
    found = [
        Reason(subject=wording.sentence(wording.step_numbers(step.n for step in run)), lines=because)
        for because, run in groupby(plan.steps, key=lambda step: step.because)
    ]
    things = [
        *((row.title, row.because) for row in plan.conditions),
        *((row.person, row.because) for row in plan.licences),
        *((row.title, row.because) for row in plan.parts),
        *((row.title, row.because) for row in plan.proofs),
    ]
    found += [Reason(subject=wording.sentence(title), lines=because) for title, because in things]
    return tuple(reason for reason in found if reason.lines)
