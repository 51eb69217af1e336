"""Why each step, part and proof is there, gathered for the last page, where it is out of the engineer's way.

Reasons are chains that end at the task, so most of them end alike: a chain that runs into one already told says under
which steps it goes on. By hand: steps 1 and 2 say (a, c, d) and (b, c, d); printed are 1: a, c, d and 2: b, "then as
under step 1".
"""

from dataclasses import dataclass
from itertools import groupby

from splitpin.records.plan import Plan
from splitpin.sheets.press import wording
from splitpin.sheets.press.language import ENGLISH, Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """What is explained, and the rules that put it there, nearest first."""

    subject: str
    lines: tuple[str, ...]


def reasons(plan: Plan, t: Words = ENGLISH) -> tuple[Reason, ...]:
    """Steps first, neighbours with the same reasons as one; then those things whose reasons no step has told.

    The tools' reasons are the steps that use them, which the list of tools gives.
    """
    found: list[Reason] = []
    told: set[tuple[str, ...]] = {()}
    first: dict[str, str] = {}
    for because, run in groupby(plan.steps, key=lambda step: step.because):
        if because:
            subject = wording.step_numbers((step.n for step in run), t)
            found.append(Reason(subject=wording.sentence(subject), lines=_shortened(because, first, t)))
            told.add(because)
            first |= {line: subject for line in because if line not in first}
    things = [
        *((row.title, row.because) for row in plan.conditions),
        *((row.person, row.because) for row in plan.licences),
        *((row.title, row.because) for row in plan.parts),
        *((row.title, row.because) for row in plan.proofs),
    ]
    found += [
        Reason(subject=wording.sentence(title), lines=because) for title, because in things if because not in told
    ]
    return tuple(found)


def _shortened(chain: tuple[str, ...], first: dict[str, str], t: Words) -> tuple[str, ...]:
    """The chain up to the first line, its own first one apart, that was told before, and where; nothing else is cut."""
    for place, line in enumerate(chain[1:-1], 1):
        if line in first:
            return (*chain[:place], t("then as under {steps}", steps=first[line]))
    return chain
