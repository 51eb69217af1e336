"""Which joints a lift undoes by itself, which of them bears it, and where its cautions are said."""

from __future__ import annotations

from splitpin.planning.plant.doings import Doing, Doings, Lift, Undo
from splitpin.planning.plant.plant import Plant
from splitpin.records.words import FRAME


def undone_by_itself(lift: Lift, doings: Doings) -> list[Undo]:
    """The joints that a lift undoes, by id, without those that the lifts before it undo."""
    earlier = {undo for other in doings[lift] if isinstance(other, Lift) for undo in doings[other]}
    own = {*doings[lift]} - earlier
    return sorted((doing for doing in own if isinstance(doing, Undo)), key=lambda undo: undo.joint.id)


def bearing_joints(doings: Doings, plant: Plant) -> dict[Lift, Undo]:
    """For each lift the joint that bears it: among those of its highest rank that only this lift needs, at the position
    of the lift, one to the fixed part, of these the one that takes longest to undo, of these the last by id. A lift
    that comes after this one finds the joint undone and does not need it. Our own rule, where no joint `bears`.
    """
    users = _users(doings)
    found = {}
    for lift in _lifts(doings):
        loosened = _of_highest_rank(_loosened(lift, doings, plant))
        able = [undo for undo in loosened if users[undo] == 1 and undo.position == lift.position]
        if able:
            found[lift] = max(able, key=_bearing)
    return found


def cautioned(doings: Doings, bearing: dict[Lift, Undo], plant: Plant) -> dict[Undo, tuple[str, ...]]:
    """The cautions of a component, and of what it guards or closes, with the joint that bears it, or else with all of
    the highest rank that only its lift needs: they are read before it comes loose. Our own rule.
    """
    users = _users(doings)
    found: dict[Undo, tuple[str, ...]] = {}
    for lift in _lifts(doings):
        alone = [undo for undo in _loosened(lift, doings, plant) if users[undo] == 1]
        component = lift.component
        for undo in [bearing[lift]] if lift in bearing else _of_highest_rank(alone):
            found[undo] = (*found.get(undo, ()), *plant.cautions_of_lifting(component), *component.cautions)
    return found


def _lifts(doings: Doings) -> list[Lift]:
    return [doing for doing in doings if isinstance(doing, Lift)]


def _loosened(lift: Lift, doings: Doings, plant: Plant) -> list[Undo]:
    """The joints that a lift undoes by itself, without those inside the group that travels with it."""
    return [undo for undo in undone_by_itself(lift, doings) if not plant.inside(undo.joint, lift.component)]


def _of_highest_rank(undone: list[Undo]) -> list[Undo]:
    top = max((undo.rank for undo in undone), default=None)
    return [undo for undo in undone if undo.rank == top]


def _bearing(undo: Undo) -> tuple[bool, int, str]:
    return FRAME in undo.joint.between, undo.seconds[0], undo.joint.id


def _users(doings: Doings) -> dict[Doing, int]:
    """How many doings need each doing; a lift does not need the joints that the lifts before it undo."""
    users: dict[Doing, int] = {}
    for doing, earlier in doings.items():
        for other in undone_by_itself(doing, doings) if isinstance(doing, Lift) else earlier:
            users[other] = users.get(other, 0) + 1
    return users
