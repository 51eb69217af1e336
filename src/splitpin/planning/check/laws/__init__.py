"""The thirty laws of a plan, each by its number.

The problem: a plan may be legal step by step and still hurt somebody, or cost a second visit, because of what it does
not say. Each law is one such lack, judged from what the files mean; it asks only where they say what it needs.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from splitpin.planning.check.fault import Fault
from splitpin.planning.check.laws import dead, firing, handling, looks, points, state
from splitpin.planning.check.laws.case import Case

__all__ = ["ALL_LAWS", "KEPT_LAWS", "Case", "Law"]


@dataclass(frozen=True, slots=True)
class Law:
    """A law of any plan: `broken` gives every fault of a case against it."""

    number: int
    title: str
    broken: Callable[[Case], Iterator[Fault]]


ALL_LAWS = (
    Law(1, "a condition made is released once, after the last thing that leans on it", state.released_once),
    Law(2, "releases run backwards through the makings", state.released_backwards),
    Law(3, "each step is possible in the state of the plant", state.possible),
    Law(4, "what is opened or set is set back, named and within reach", points.set_back),
    Law(5, "a closed valve is no isolation, and a feed is parted", points.isolated),
    Law(6, "what drives a circuit from outside is off first and released last", points.held_off),
    Law(7, "energy stored in what is lifted is let down, held or caught", points.let_down),
    Law(8, "the least condition that serves", state.least_strength),
    Law(9, "people who lose a service are told", state.told),
    Law(10, "every supply is named, and conductors are proved dead at hand", dead.proved_dead),
    Law(11, "a test that a part cannot stand runs while it is out", dead.tested_apart),
    Law(12, "nothing starts before its settings are set and read back", dead.settings_set),
    Law(13, "what follows work on this plant is examined, each function by its name", firing.examined),
    Law(14, "running with something off is a choice", firing.by_consent),
    Law(15, "joints that must be tight show it", dead.tight),
    Law(16, "a safety device is proved as printed, before its source runs at length", firing.device_proved),
    Law(17, "a joint is proved in the state that loads it, and seen", looks.loaded),
    Law(18, "re-admission is staged", looks.readmitted),
    Law(19, "nothing left inside, turned by hand, before the last cover", looks.last_cover),
    Law(20, "each disturbance brings its own proofs", looks.brought),
    Law(21, "the readings that judge the end are taken as found", looks.as_found),
    Law(22, "a limit has its source and its unit, or is left open", looks.limited),
    Law(23, "what a caution orders is in the plan", handling.ordered),
    Law(24, "liquid is caught, and dirt comes before cleaning", handling.caught),
    Law(25, "weight last and in one go, marks before undoing", handling.marked),
    Law(26, "the new part is compared before anything is opened", handling.compared),
    Law(27, "what stays shut beside the work has a stop line", handling.stop_lines),
    Law(28, "waits are waits, and what hangs on a reading is conditional", handling.waited),
    Law(29, "the place brings its conditions, cautions and proofs", handling.of_the_place),
    Law(30, "each caution once, and none that cannot apply", handling.said_once),
)

# The laws that the planner keeps: the check of every plan runs these. The others wait until it has learnt them.
_KEPT = (1, 2, 22, 30)
KEPT_LAWS = tuple(law for law in ALL_LAWS if law.number in _KEPT)
