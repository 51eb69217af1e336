"""The whole verdict on a finished plan.

The problem: given what the files say of a plant and of a job, and a plan as it is handed on, is every step of the
plan legal where it stands, is everything there that must be, and nothing that need not? The steps are played through
once to find when each thing left and came back; every rule is then a comparison of step numbers or of seconds.
The method is our own; it shares no code with the search for the plan, only the records of the files.

By hand: a cover is held by two screws in front of a fan. The plan undoes the screws (1), takes the cover (2), looks at
the fan (3), fits the cover (4), and drives the screws (5). Swap 3 and 4, and the fan is looked at behind a cover.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin.planning.check.access import Lift, access_faults, lifts
from splitpin.planning.check.cautions import caution_faults
from splitpin.planning.check.clock import clock_faults
from splitpin.planning.check.conditions import condition_faults, needs_of
from splitpin.planning.check.definitions import Asked, Definitions
from splitpin.planning.check.emergency import emergency_faults
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History, read_history
from splitpin.planning.check.laws import KEPT_LAWS, Case, Law
from splitpin.planning.check.lists import list_faults
from splitpin.planning.check.needless import needless_faults
from splitpin.planning.check.proofs import demands_of, proof_faults
from splitpin.planning.check.refit import late_faults, seal_faults
from splitpin.planning.check.tasks import task_faults, wanted
from splitpin.records.plan import Plan

if TYPE_CHECKING:
    from splitpin.records.library import Visit


def check_plan(plan: Plan, visit: Visit, laws: tuple[Law, ...] = KEPT_LAWS) -> tuple[Fault, ...]:
    """Every rule and every one of these laws that the plan breaks, sorted by step; nothing when it is accepted.

    The readings chosen where the definitions leave room stand at the head of each module of this package. A plan that
    calls itself impossible says why in an error among its notices, and what steps it has are checked like any. A job
    that speaks of an emergency must have no plan. That a plan is the best one is not checked here; that it opens
    nothing it does not need is.
    Cost: grows with (components lifted) x (steps) x (joints); some milliseconds for a hundred steps.
    """
    stopped = list(emergency_faults(plan, visit))
    if stopped or (plan.status == "impossible" and not plan.steps):
        return (*stopped, *_impossible_faults(plan))
    definitions = Definitions(visit)
    history, faults = read_history(plan, definitions)
    lifted, doing = lifts(history), wanted(plan, definitions)
    faults += _impossible_faults(plan)
    faults += access_faults(history)
    faults += needless_faults(history, doing)
    faults += task_faults(history, plan)
    faults += condition_faults(history, lifted, doing)
    faults += seal_faults(history, lifted)
    faults += late_faults(history, lifted, demands_of(history, lifted, doing))
    faults += proof_faults(history, plan, lifted, doing)
    faults += list_faults(history, plan, lifted, doing)
    faults += caution_faults(history, plan, lifted, doing)
    faults += clock_faults(history, plan)
    faults += law_faults(history, plan, lifted, doing, laws)
    return tuple(sorted(set(faults), key=lambda fault: (fault.step or len(plan.steps) + 1, fault.rule, fault.message)))


def law_faults(
    history: History, plan: Plan, lifted: tuple[Lift, ...], doing: tuple[Asked, ...], laws: tuple[Law, ...]
) -> list[Fault]:
    """What the laws alone have against the plan."""
    needs, demands = tuple(needs_of(history, lifted, doing)), demands_of(history, lifted, doing)
    case = Case(plan, history, lifted, doing, needs, demands)
    return [fault for law in laws for fault in law.broken(case)]


def _impossible_faults(plan: Plan) -> list[Fault]:
    faults = []
    if plan.status == "impossible" and all(notice.severity != "error" for notice in plan.notices):
        faults.append(Fault(None, "impossible", "the plan calls itself impossible and does not say why"))
    return faults
