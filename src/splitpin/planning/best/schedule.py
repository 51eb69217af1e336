"""An ordered programme against the clock: when each act starts, its set-up, and the idle time before it."""

from dataclasses import dataclass

from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Act, Programme


@dataclass(frozen=True, slots=True)
class Slot:
    """An act with its start (set-up included), its set-up seconds, and the end of its hands-on time."""

    act: Act
    start_s: int
    setup_s: int
    end_s: int


def schedule(programme: Programme, order: tuple[int, ...], plant: Plant, offset_s: int) -> tuple[Slot, ...]:
    """The acts in their order, as early as one worker can: set-up may be done while a wait still runs.

    Set-up = tools that the last tooled act did not use, and the way from the last position. `offset_s` is when the
    first may start.
    """
    acts = list(programme.acts.values())
    ends: dict[tuple[str, ...], int] = {}
    hands: frozenset[str] = frozenset()
    place = 0
    now = offset_s
    slots = []
    for index in order:
        act = acts[index]
        setup = 0
        if act.tools:
            setup += sum(plant.pickup_s(tool) for tool in act.tools if tool not in hands)
            hands = frozenset(act.tools)
        if act.position is not None:
            there = plant.positions.index(act.position)
            setup += plant.travel_s[place][there]
            place = there
        ready = max((ends[key] + programme.acts[key].wait_s for key in programme.before[act.key]), default=offset_s)
        start = max(now, ready - setup)
        now = start + setup + act.seconds
        ends[act.key] = now
        slots.append(Slot(act, start, setup, now))
    return tuple(slots)
