"""Whether the times add up: one pair of hands, waits that run by themselves, and sums that are the steps' own.

Reading of the definitions. A step starts when the one before it ends, or later, so that its own work begins (tools in
hand, on the spot) at the very second some wait is over. The day ends with the last step, and may count in any wait
still running then. A step takes at least its set-up and the seconds its record gives.
"""

from collections.abc import Iterator

from splitpin import units
from splitpin.planning.check.access import Lift
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.planning.check.procedures import procedure_lines
from splitpin.records.plan import Plan


def clock_faults(history: History, plan: Plan, lifted: tuple[Lift, ...]) -> Iterator[Fault]:
    """Steps that overlap or stand idle for no reason, sums that are wrong, steps shorter than their own record."""
    free = 0
    over = {0}
    for index, step in enumerate(plan.steps):
        if step.start_s < free:
            yield Fault(step.n, "clock", f"starts at {step.start_s} s, before the step before it ends at {free} s")
        elif step.start_s > free and history.begins[index] not in over:
            yield Fault(step.n, "clock", f"starts at {step.start_s} s, and no wait ends when its work begins")
        free = max(free, step.start_s + step.seconds)
        over.add(history.done_s(index))
    hands_on = sum(step.seconds for step in plan.steps)
    ends = {free, max([free, *over])}
    if plan.times.hands_on_s != hands_on:
        yield Fault(None, "clock", f"hands on for {plan.times.hands_on_s} s, the steps add up to {hands_on} s")
    if plan.times.elapsed_s not in ends:
        yield Fault(None, "clock", f"{plan.times.elapsed_s} s in all, and the last step ends at {free} s")
    if plan.times.hands_on_s + plan.times.waiting_s != plan.times.elapsed_s:
        yield Fault(None, "clock", "hands on and waiting do not add up to the time in all")
    for index, least in _least(history, lifted):
        own = _end(plan, index) - history.begins[index]
        if own < least:
            yield Fault(index + 1, "clock", f"leaves {own} s for its own work, and its record gives {least} s")


def _end(plan: Plan, index: int) -> int:
    """The second at which the hands are free again."""
    return plan.steps[index].start_s + plan.steps[index].seconds


def _least(history: History, lifted: tuple[Lift, ...]) -> Iterator[tuple[int, int]]:
    definitions = history.definitions
    for joint, (undone, *_) in history.did["undo"].items():
        record, fixing = definitions.joints[joint], definitions.fixing(joint)
        yield undone, fixing.off_s * record.count
        remade = history.did["remake"].get(joint, ())
        if len(remade) == 1:
            yield remade[0], fixing.on_s * record.count
    for index, line in procedure_lines(history):
        yield index, units.seconds(line.min)
    for lift in lifted:
        off, on = definitions.handling_s(lift.component, lift.way)
        yield lift.taken, off
        if lift.fitted < len(history.steps):
            yield lift.fitted, on
