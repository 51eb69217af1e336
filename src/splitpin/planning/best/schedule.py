"""An ordered programme against the clock: when each act starts, what it fetches, and which waits it stands behind."""

from dataclasses import dataclass

from splitpin.ordering.clock import turns
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act, Programme


@dataclass(frozen=True, slots=True)
class Slot:
    """An act in its place: its start (set-up included) and its end, tools picked up and the way to it, in seconds.

    waits_for: the acts whose waits must have run out before its work begins.
    """

    act: Act
    start_s: int
    setup_s: int
    end_s: int
    picked: tuple[str, ...]
    walked_s: int
    waits_for: tuple[Act, ...]


def schedule(programme: Programme, order: tuple[int, ...], plant: Plant, offset_s: int) -> tuple[Slot, ...]:
    """The acts in their order, as early as one worker can; `offset_s` is when the first may start."""
    tools = programme.tools()
    slots = []
    for turn in turns(programme.problem(plant), order, offset_s):
        act = programme.acts[turn.operation]
        slots.append(
            Slot(
                act=act,
                start_s=turn.start_s,
                setup_s=turn.setup.seconds,
                end_s=turn.end_s,
                picked=tuple(tools[tool] for tool in sorted(turn.setup.picked)),
                walked_s=turn.setup.walked_s,
                waits_for=programme.waits_before(act),
            )
        )
    return tuple(slots)
