"""Who may do which steps: those that open a medium, make or release a condition or run a proof may take a licence."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from splitpin.planning.plant.plant import Plant
from splitpin.records.plan import Licence, Step

if TYPE_CHECKING:
    from splitpin.records.catalogue import Medium
    from splitpin.records.procedure import Condition, Proof


def licences(steps: Iterable[Step], plant: Plant) -> tuple[Licence, ...]:
    """Each licence by id with the person, the steps that take it and what it is needed for, as the steps meet it."""
    numbers: dict[str, list[int]] = {}
    reasons: dict[str, list[str]] = {}
    for step in steps:
        for row in _asking(step, plant):
            if row.licence is not None:
                numbers.setdefault(row.licence, []).append(step.n)
                reasons.setdefault(row.licence, []).append(f"{row.title} ({row.place})")
    return tuple(
        Licence(
            id=name,
            person=plant.library.licences[name].person,
            steps=tuple(dict.fromkeys(numbers[name])),
            because=tuple(dict.fromkeys(reasons[name])),
        )
        for name in sorted(numbers)
    )


def _asking(step: Step, plant: Plant) -> Iterator[Medium | Condition | Proof]:
    library = plant.library
    if step.joint is not None:
        joint = plant.joint(step.joint)
        if joint.circuit is not None:
            yield library.media[plant.circuit(joint.circuit).medium]
    if step.condition is not None:
        yield library.conditions[step.condition]
    if step.proof is not None:
        yield library.proofs[step.proof]
