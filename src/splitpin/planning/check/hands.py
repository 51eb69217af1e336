"""What the hands do between two steps: pick up what is not yet in them, and walk to where the next step is.

A step's seconds begin with this set-up, and it may fall into a wait: only what comes after it needs the wait over.
Tools stay in the hands until a step that uses tools needs others; a step without a position is done where one stands.
"""

from splitpin.planning.check.definitions import Definitions
from splitpin.records.plan import Step


def begins(steps: tuple[Step, ...], definitions: Definitions) -> tuple[int, ...]:
    """The second at which each step's own work begins, its set-up done; never past the end of the step."""
    found = []
    hands: tuple[str, ...] = ()
    place = definitions.assembly.assembly.positions[0]
    for step in steps:
        setup = sum(_pickup_s(tool, definitions) for tool in step.tools if tool not in hands)
        if step.position is not None:
            setup += definitions.walk_s(place, step.position)
            place = step.position
        hands = step.tools or hands
        found.append(step.start_s + min(setup, step.seconds))
    return tuple(found)


def _pickup_s(tool: str, definitions: Definitions) -> int:
    record = definitions.library.tools.get(tool)
    own = None if record is None else record.pickup_s
    return definitions.visit.firm.times.pickup_s if own is None else own
