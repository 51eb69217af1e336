"""What the hands do before a step's own work: pick up what is not yet in them, and walk to where the step is.

A step's seconds begin with this set-up, and it may fall into a wait: only what comes after it needs the wait over. It
takes what the step takes beyond the seconds of its record. Where no record gives seconds (work, seals, lifts, patterns)
it is reckoned: tools stay in the hands until a step that uses tools needs others, and a step without a position is done
where one stands.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin import units
from splitpin.planning.check.definitions import Definitions
from splitpin.records.plan import Step

if TYPE_CHECKING:
    from splitpin.records.procedure import ProcedureStep


def begins(
    steps: tuple[Step, ...], did: dict[str, dict[str, tuple[int, ...]]], definitions: Definitions
) -> tuple[int, ...]:
    """The second at which each step's own work begins, its set-up done; never past the end of the step."""
    known = own_seconds(did, definitions)
    found = []
    hands: tuple[str, ...] = ()
    place = definitions.assembly.assembly.positions[0]
    for index, step in enumerate(steps):
        setup = sum(_pickup_s(tool, definitions) for tool in step.tools if tool not in hands)
        if step.position is not None:
            setup += definitions.walk_s(place, step.position)
            place = step.position
        hands = step.tools or hands
        if index in known:
            setup = step.seconds - min(known[index], step.seconds)
        found.append(step.start_s + min(setup, step.seconds))
    return tuple(found)


def own_seconds(did: dict[str, dict[str, tuple[int, ...]]], definitions: Definitions) -> dict[int, int]:
    """The seconds of the record, for the steps of joints, conditions and proofs."""
    found: dict[int, int] = {}
    for joint, steps in did["undo"].items():
        record = definitions.joints[joint]
        off_s = definitions.fixing(joint).off_s if record.off_s is None else record.off_s
        found[steps[0]] = off_s * record.count
    for joint, steps in did["remake"].items():
        if len(steps) == 1 + (definitions.fixing(joint).least_nm is not None):  # nuts are measured in a step before
            record = definitions.joints[joint]
            on_s = definitions.fixing(joint).on_s if record.on_s is None else record.on_s
            found[steps[-1]] = on_s * record.count
    for action in ("make", "release", "prove"):
        for thing, steps in did[action].items():
            for index, line in zip(steps, _lines(action, thing, definitions), strict=False):
                found[index] = units.seconds(line.min)
    return found


def _lines(action: str, thing: str, definitions: Definitions) -> tuple[ProcedureStep, ...]:
    if action == "prove":
        return definitions.library.proofs[thing].step
    condition = definitions.library.conditions[thing]
    return condition.make if action == "make" else condition.release


def _pickup_s(tool: str, definitions: Definitions) -> int:
    record = definitions.library.tools.get(tool)
    own = None if record is None else record.pickup_s
    return definitions.visit.firm.times.pickup_s if own is None else own
