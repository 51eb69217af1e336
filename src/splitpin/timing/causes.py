"""What forces each step: the task itself, or the first thing that the task needs moved, opened or made safe.

Every doing of a plan hangs from a task by a chain of needs. What belongs to the thing asked for, its lift and its own
joints, counts as the task; below that, everything hangs from the first thing that had to be done for another's sake.
By hand: the casing's screws hold the casing, the casing is in the way of the pump, the pump is wanted out: screws and
casing, off and back, are there because the casing is in the way of the pump.
"""

from typing import NamedTuple

from splitpin.planning.asked.expand import Wanted
from splitpin.planning.plant.doings import Doing, Lift, Undo, Work, id_of
from splitpin.planning.programme.acts import HandOver, Prove, PutBack, Release
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
        self.demanded = course.choice.candidate.demanded
        self.why = course.why
        self._known: dict[Doing, Cause] = {}

    def of(self, done: Done) -> tuple[Cause, ...]:
        """The causes of an act, which share it equally: several only for a proof that several things brought."""
        match done.act.part:
            case HandOver():
                return (VISIT,)
            case Prove(proof):
                return tuple(dict.fromkeys(self._of_doing(doing) for doing in self.demanded[proof.id].doings))
            case Release(made):
                return (self._of_doing(made),)
            case PutBack(opened):
                return (self._of_doing(opened),)
            case doing:
                return (self._of_doing(doing),)

    def _of_doing(self, doing: Doing) -> Cause:
        if doing not in self._known:
            self._known[doing] = self._found(doing)
        return self._known[doing]

    def _found(self, doing: Doing) -> Cause:
        chain = self._chain(doing)
        task, *below = chain
        assert isinstance(task, Work)
        for asker, needed in zip(chain, below, strict=False):
            if not _own(needed, asker, task.wanted):
                rule = self.why.chain(needed)[0]
                return Cause(id_of(needed), _in_words(rule, task.wanted), rule)
        return Cause(f"task:{task.name}", f"the task itself: {task.title}", self.why.chain(task)[0])

    def _chain(self, doing: Doing) -> list[Doing]:
        """The doings from the task down to this one."""
        return [doing, *(asker for _, _, asker in self.why.path(doing))][::-1]


def _in_words(rule: str, wanted: Wanted) -> str:
    """The rule without its place, and with the thing in place of the task."""
    bare = rule.rsplit(" (", 1)[0] if rule.endswith(")") else rule
    if wanted.component is None:
        return bare
    return bare.replace(f"the {wanted.phrase}", f"the {wanted.component.title}")


def _own(doing: Doing, above: Doing, wanted: Wanted) -> bool:
    """Whether a doing belongs to the thing asked for: its lift, the joints of its lift, the joint to be renewed."""
    if wanted.joint is not None:
        return isinstance(doing, Undo) and doing.joint.id == wanted.joint.id
    assert wanted.component is not None
    lift = above if isinstance(doing, Undo) else doing
    return isinstance(lift, Lift) and lift.component.id == wanted.component.id
