"""Habits of the trade: rules that narrow the order further than the plant does, each with its name and its reason.

What the plant asks for (a cover off before what is behind it, a circuit drained before its joint is opened, a leak
proof before the joint is out of sight) is never a habit. A habit may be left out by name: then other orders, perhaps
quicker ones, are sound too. Those of safety are left out by no firm (see `HabitId`). `docs/method.md` says what each
costs. By hand: a meter that is read in the wait for a drain-down needs nothing open; by the habit `work-when-open` it
is read when everything is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.planning.opening.graph import Graph
from splitpin.planning.opening.too_far import goes_too_far
from splitpin.planning.plant.doings import Doing, Doings, Lift, Make, Undo, Work
from splitpin.planning.programme.acts import Act, PutBack
from splitpin.planning.programme.loosening import undone_by_itself

if TYPE_CHECKING:
    from splitpin.access.result import Opening
    from splitpin.planning.programme.refit import Refit
    from splitpin.planning.programme.strip import Strip
    from splitpin.records.firm import FirmFile


@dataclass(frozen=True, slots=True, eq=False)
class Habit:
    """One rule: its sentence, why it is kept, where that comes from, and what it adds to either half of a programme.

    `opening`: whether an opening is left out by it. A habit without any of these is asked for by name at the one place
    that its reason names.
    """

    id: str
    title: str
    reason: str
    basis: str
    strip: Callable[[Strip], None] | None = None
    refit: Callable[[Refit], None] | None = None
    opening: Callable[[Opening, Graph], bool] | None = None


Habits = frozenset[Habit]


# -- the first half


def _safe_first(half: Strip) -> None:
    touching = [act for act in half.programme.acts if act.phase in ("strip", "work")]
    waiting = {doing for doing in half.doings if isinstance(doing, Make) and doing.waits}
    for doing in half.doings:
        if isinstance(doing, Make) and not waiting & _with_all_before(doing, half.doings):
            for act in touching:
                half.programme.prefer(half.ends[doing].last, act)


def _with_all_before(doing: Doing, doings: Doings) -> set[Doing]:
    return {doing}.union(*(_with_all_before(other, doings) for other in doings[doing]))


def _tasks_in_turn(half: Strip) -> None:
    last: dict[object, Act] = {}
    for act in sorted(_work(half), key=lambda act: (-act.seconds, _named(act))):
        same = (act.tools, act.position, half.programme.waits_ahead(act))
        if same in last:
            half.programme.prefer(last[same], act)
        last[same] = act


def _open_first(half: Strip) -> None:
    at_once = [a for a in half.programme.acts if a.phase == "strip" and not half.programme.waits_ahead(a)]
    for work in _work(half):
        for act in at_once:
            half.programme.prefer(act, work)


def _dirt_first(half: Strip) -> None:
    for act in _work(half):
        doing = _doing(act)
        for name in doing.wanted.component.sheds_into if doing.wanted.component else ():
            for other in half.programme.acts:
                if other.phase == "work" and other.component == name:
                    half.programme.prefer(act, other)


def _work(half: Strip) -> list[Act]:
    return [act for act in half.programme.acts if act.phase == "work"]


def _doing(act: Act) -> Work:
    assert isinstance(act.part, Work)
    return act.part


def _named(act: Act) -> str:
    """Of a task: what it is done to, and what is done; never its number in the job."""
    wanted = _doing(act).wanted
    return f"{act.component or act.joint} {wanted.do}"


def _work_when_open(half: Strip) -> None:
    stripping = [act for act in half.programme.acts if act.phase != "work"]
    for work in half.programme.acts:
        if work.phase == "work":
            for act in stripping:
                half.programme.require(act, work)


# -- joints of one lift, in both halves


def by_rank(doings: Doings) -> list[tuple[Undo, Undo]]:
    """Pairs of joints that one lift undoes, the lower rank first."""
    return [
        (first, second)
        for undone in _of_each_lift(doings)
        for first in undone
        for second in undone
        if first.rank < second.rank
    ]


def alike(doings: Doings) -> list[tuple[Undo, Undo]]:
    """Pairs of joints that one lift undoes and that are alike: reached alike, with the same tools at the same place,
    of the same rank; the first by id first.
    """
    pairs = []
    for undone in _of_each_lift(doings):
        last: dict[object, Undo] = {}
        for undo in undone:
            same = (undo.rank, undo.tools, undo.position, doings[undo])
            if same in last:
                pairs.append((last[same], undo))
            last[same] = undo
    return pairs


def _of_each_lift(doings: Doings) -> Iterable[list[Undo]]:
    return (undone_by_itself(doing, doings) for doing in doings if isinstance(doing, Lift))


def _apart_by_rank(half: Strip) -> None:
    _apart(half, by_rank(half.doings))


def _apart_alike(half: Strip) -> None:
    _apart(half, alike(half.doings))


def _apart(half: Strip, pairs: Iterable[tuple[Undo, Undo]]) -> None:
    for first, second in pairs:
        half.programme.prefer(half.ends[first].last, half.ends[second].first)


def _together_by_rank(half: Refit) -> None:
    _together(half, by_rank(half.doings))


def _together_alike(half: Refit) -> None:
    _together(half, alike(half.doings))


def _together(half: Refit, pairs: Iterable[tuple[Undo, Undo]]) -> None:
    for first, second in pairs:
        half.programme.prefer(half.back[second], half.back[first])


# -- the second half


def _running_last(half: Refit) -> None:
    proofs = half.plant.library.proofs
    for name, ends in half.proofs.items():
        for other, later in half.proofs.items():
            if proofs[name].plant != "running" and proofs[other].plant == "running":
                half.programme.prefer(ends.last, later.first)


def _covers_wait(half: Refit) -> None:
    for name, ends in half.proofs.items():
        for seen, cover, fit in half.in_front_of(name):
            if not half.programme.prefer(ends.last, fit):
                half.hidden(name, seen, cover)


def _close_first(half: Refit) -> None:
    closing = [act for act in half.programme.acts if isinstance(act.part, PutBack)]
    for ends in (*half.releases.values(), *half.proofs.values()):
        for act in closing:
            half.programme.prefer(act, ends.first)


SAFE_FIRST = Habit(
    "safe-first",
    "What can be made safe without waiting comes before the first thing is undone.",
    "nobody touches plant that could have been isolated first; a later change of the order must not bring that back",
    "common practice",
    strip=_safe_first,
)
OPEN_FIRST = Habit(
    "open-first",
    "What can be taken apart without waiting is taken apart before the first task.",
    "nothing is taken apart over finished work, and what is found there is found while there is time to send for it",
    "common practice",
    strip=_open_first,
)
TASKS_IN_TURN = Habit(
    "tasks-in-turn",
    "Tasks at one place, with the same tools, behind the same waits are done in one turn, the longest first.",
    "a round of looks keeps its turn, and nothing of it is left over; which of them fills a wait is hardly ever felt",
    "from memory",
    strip=_tasks_in_turn,
)
DIRT_FIRST = Habit(
    "dirt-first",
    "What sheds dirt is worked on before what catches it is cleaned.",
    "what was cleaned first would have to be cleaned again",
    "common practice",
    strip=_dirt_first,
)
WORK_WHEN_OPEN = Habit(
    "work-when-open",
    "The work begins when everything is open.",
    "one round of taking apart, then the tasks in sight of the whole: nothing is taken apart over finished work",
    "common practice",
    strip=_work_when_open,
)
RANKS = Habit(
    "ranks",
    "Joints of one lift come apart by rank, and go together the other way round.",
    "leads and pipes before the screws that carry the part, so that nothing hangs from what is still connected",
    "common practice",
    strip=_apart_by_rank,
    refit=_together_by_rank,
)
ALIKE = Habit(
    "alike",
    "Joints of one lift that are alike come apart in the order of their ids.",
    "to change them about would change nothing but names, and the search need not try it",
    "from memory",
    strip=_apart_alike,
    refit=_together_alike,
)
BEARING_LAST = Habit(
    "bearing-last",
    "The joint that bears a part is undone last and in one go with its lift.",
    "a part whose last fixing is undone is held in the hands, not left hanging while something else is done",
    "common practice",
)
RUNNING_LAST = Habit(
    "running-last",
    "What is proved dead or charged is proved before the plant runs.",
    "plant is not run on joints and earths that are not proved yet",
    "common practice",
    refit=_running_last,
)
COVERS_WAIT = Habit(
    "covers-wait",
    "A cover in front of what is proved in sight stays off until it is proved.",
    "a leak behind a cover is not seen",
    "common practice",
    refit=_covers_wait,
)
CLOSE_FIRST = Habit(
    "close-first",
    "What need not stay open for a proof goes back before a condition is released and before a proof is run.",
    "plant is not charged or run with parts still lying about",
    "common practice",
    refit=_close_first,
)
NOTHING_MORE = Habit(
    "nothing-more",
    "An opening that holds another one whole is no candidate.",
    "nothing is opened that nothing asks for, even where it would save a change of tools",
    "common practice",
)
NOT_TOO_FAR = Habit(
    "not-too-far",
    "Nothing is lifted right out where moving it aside with less undone would do.",
    "it could only win by undoing for nothing, in a wait, what would otherwise be undone after it",
    "common practice",
    opening=goes_too_far,
)

ALL = (
    WORK_WHEN_OPEN,
    RANKS,
    ALIKE,
    BEARING_LAST,
    SAFE_FIRST,
    OPEN_FIRST,
    DIRT_FIRST,
    TASKS_IN_TURN,
    RUNNING_LAST,
    COVERS_WAIT,
    CLOSE_FIRST,
    NOTHING_MORE,
    NOT_TOO_FAR,
)
"""Every habit, in the order in which they narrow a programme: an earlier one goes before a later one that clashes."""
USUAL: Habits = frozenset(ALL) - {WORK_WHEN_OPEN}


def in_force(firm: FirmFile) -> Habits:
    """The usual habits and those that the firm has switched on, without those that it has switched off."""
    on, off = firm.habits.on, firm.habits.off
    return frozenset(habit for habit in ALL if (habit in USUAL or habit.id in on) and habit.id not in off)


def in_their_order(habits: Habits) -> tuple[Habit, ...]:
    """These habits as `ALL` lists them."""
    return tuple(habit for habit in ALL if habit in habits)
