"""What forces each step: the task itself, or the first thing that the task needs moved, opened or made safe.

Every doing of a plan hangs from a task by a chain of needs. What belongs to the thing asked for, its lift and its own
joints, counts as the task; below that, everything hangs from the first thing that had to be done for another's sake.
By hand: the casing's screws hold the casing, the casing is in the way of the pump, the pump is wanted out: screws and
casing, off and back, are there because the casing is in the way of the pump.
"""

from typing import NamedTuple

from splitpin.planning.asked.expand import Wanted
from splitpin.planning.plant.keys import DOINGS, LIFTING, UNDOING, Key
from splitpin.planning.programme.refit import HAND_OVER, back
from splitpin.planning.written.course import Course, Done


class Cause(NamedTuple):
    """Why time is spent: a sentence, and the rule with file and line where one stands behind it."""

    id: str
    text: str
    because: str = ""


VISIT = Cause("visit", "every visit ends with the hand-over")
SITE = Cause("site", "the site")


class Causes:
    """Answers for one course."""

    def __init__(self, course: Course) -> None:
        self.course = course
        self.doings = course.choice.candidate.doings
        self.demanded = course.choice.candidate.demanded
        self.why = course.why
        self.opened = {back(doing): doing for doing in self.doings if doing[0] in (*LIFTING, *UNDOING)}
        self._known: dict[Key, Cause] = {}

    def of(self, done: Done) -> tuple[Cause, ...]:
        """The causes of an act, which share it equally: several only for a proof that several things brought."""
        key = done.act.key
        if key[0] == HAND_OVER:
            return (VISIT,)
        if key[0] == "prove":
            return tuple(dict.fromkeys(self._of_doing(doing) for doing in self.demanded[key[1]].doings))
        if key[0] in ("make", "release"):
            return (self._of_doing(("make", key[1])),)
        return (self._of_doing(self.opened.get(key, key)),)

    def _of_doing(self, doing: Key) -> Cause:
        if doing not in self._known:
            self._known[doing] = self._found(doing)
        return self._known[doing]

    def _found(self, doing: Key) -> Cause:
        chain = self._chain(doing)
        wanted = self.course.wanted[int(chain[0][1])]
        for place, key in enumerate(chain[1:], 1):
            if not _own(key, chain[place - 1], wanted):
                rule = self.why.chain(key)[0]
                return Cause(":".join(key[:2]), _in_words(rule, wanted), rule)
        return Cause(f"task:{chain[0][1]}", f"the task itself: {wanted.phrase}", self.why.chain(chain[0])[0])

    def _chain(self, doing: Key) -> list[Key]:
        """The doings from the task down to this one."""
        found = [doing]
        key = doing
        while key[0] != "work":
            key = self.why.asker[key]
            if key[0] in DOINGS:
                found.append(key)
        return found[::-1]


def _in_words(rule: str, wanted: Wanted) -> str:
    """The rule without its place, and with the thing in place of the task."""
    bare = rule.rsplit(" (", 1)[0] if rule.endswith(")") else rule
    if wanted.component is None:
        return bare
    return bare.replace(f"the {wanted.phrase}", f"the {wanted.component.title}")


def _own(key: Key, above: Key, wanted: Wanted) -> bool:
    """Whether a doing belongs to the thing asked for: its lift, the joints of its lift, the joint to be renewed."""
    if wanted.joint is not None:
        return key[0] in UNDOING and key[1] == wanted.joint.id
    assert wanted.component is not None
    if key[0] in LIFTING:
        return key[1] == wanted.component.id
    return key[0] in UNDOING and above[0] in LIFTING and above[1] == wanted.component.id
