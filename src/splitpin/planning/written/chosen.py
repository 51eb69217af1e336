"""What the choice of the opening came to, for who asks why: its cost, what it was chosen over, and by how much.

By hand: a pump in place (casing off, 400 s) against the pump on its tray at the bench (450 s): the next best takes
50 s more, opens the tray and spares nothing.
"""

from __future__ import annotations

from collections.abc import Iterable

from splitpin.planning.best.choose import Choice
from splitpin.planning.best.schedule import Slot
from splitpin.planning.plant.doings import Doings, Lift, Work, turn
from splitpin.records.plan import NextOpening, PlanChoice


def chosen(choice: Choice, slots: Iterable[Slot], hands_on_s: int) -> PlanChoice:
    """The row of the plan that tells of its choice; `slots` are all its acts in their places."""
    setup_s = sum(slot.setup_s for slot in slots)
    return PlanChoice(
        cost_s=choice.candidate.opening.cost,
        tried=choice.tried,
        work_s=hands_on_s - setup_s,
        setup_s=setup_s,
        least_s=min(choice.bound_s, choice.elapsed_s),
        next=_next(choice),
    )


def _next(choice: Choice) -> NextOpening | None:
    second = choice.second
    if second is None:
        return None
    mine, other = _named(choice.candidate.doings), _named(second.doings)
    return NextOpening(
        more_s=max(0, second.elapsed_s - choice.elapsed_s),
        at_least=not second.exact,
        opens=tuple(title for title in other if title not in mine),
        spares=tuple(title for title in mine if title not in other),
    )


def _named(doings: Doings) -> tuple[str, ...]:
    """What is done in an opening beside the work, as one reads it."""
    found = []
    for doing in sorted(doings, key=turn):
        if isinstance(doing, Lift):
            found.append(f"{doing.phrase} {doing.ends}{' at the bench' * (doing.carrier is not None)}")
        elif not isinstance(doing, Work):
            found.append(doing.phrase)
    return tuple(dict.fromkeys(found))
