"""What forces each step: the task itself, or the first thing that the task needs moved, opened or made safe.

Every doing of a plan hangs from a task by a chain of needs. What belongs to the thing asked for, its lift and its own
joints, counts as the task; below that, everything hangs from the first thing that had to be done for another's sake.
By hand: the casing's screws hold the casing, the casing is in the way of the pump, the pump is wanted out: screws and
casing, off and back, are there because the casing is in the way of the pump.
"""

from typing import NamedTuple

from splitpin.planning.asked.expand import Wanted
from splitpin.planning.plant.doings import (
    Doing,
    Fit,
    HandOver,
    Leg,
    Lifting,
    Make,
    Node,
    Physical,
    Prove,
    Release,
    Remake,
    Undoing,
    Work,
    back,
)
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
        self.opened = {back(doing): doing for doing in self.doings if isinstance(doing, Physical)}
        self._known: dict[Node, Cause] = {}

    def of(self, done: Done) -> tuple[Cause, ...]:
        """The causes of an act, which share it equally: several only for a proof that several things brought."""
        match done.act.key:
            case Leg(doing=HandOver()):
                return (VISIT,)
            case Leg(doing=Prove(proof=proof)):
                return tuple(dict.fromkeys(self._of_doing(doing) for doing in self.demanded[proof.id].doings))
            case Leg(doing=Make(condition=condition) | Release(condition=condition)):
                return (self._of_doing(Make(condition)),)
            case Fit() | Remake() as putting_back:
                return (self._of_doing(self.opened[putting_back]),)
            case key:
                return (self._of_doing(key),)

    def _of_doing(self, doing: Node) -> Cause:
        if doing not in self._known:
            self._known[doing] = self._found(doing)
        return self._known[doing]

    def _found(self, doing: Node) -> Cause:
        chain = self._chain(doing)
        task = chain[0]
        assert isinstance(task, Work)
        wanted = task.wanted
        for place, key in enumerate(chain[1:], 1):
            if not _own(key, chain[place - 1], wanted):
                rule = self.why.chain(key)[0]
                return Cause(":".join(key.key[:2]), _in_words(rule, wanted), rule)
        return Cause(f"task:{task.number}", f"the task itself: {wanted.phrase}", self.why.chain(task)[0])

    def _chain(self, doing: Node) -> list[Node]:
        """The doings from the task down to this one."""
        found = [doing]
        key = doing
        while not isinstance(key, Work):
            key = self.why.asker[key]
            if isinstance(key, Doing):
                found.append(key)
        return found[::-1]


def _in_words(rule: str, wanted: Wanted) -> str:
    """The rule without its place, and with the thing in place of the task."""
    bare = rule.rsplit(" (", 1)[0] if rule.endswith(")") else rule
    if wanted.component is None:
        return bare
    return bare.replace(f"the {wanted.phrase}", f"the {wanted.component.title}")


def _own(key: Node, above: Node, wanted: Wanted) -> bool:
    """Whether a doing belongs to the thing asked for: its lift, the joints of its lift, the joint to be renewed."""
    if wanted.joint is not None:
        return isinstance(key, Undoing) and key.joint.id == wanted.joint.id
    assert wanted.component is not None
    lift = key if isinstance(key, Lifting) else above if isinstance(key, Undoing) else None
    return isinstance(lift, Lifting) and lift.component.id == wanted.component.id
