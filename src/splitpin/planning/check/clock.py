"""Whether the times add up: one pair of hands, waits that run by themselves, and sums that are the steps' own.

Reading of the definitions. A step starts when the one before it ends, or later, so that its own work begins (tools in
hand, on the spot) at the very second some wait is over. The day ends with the last step, and may count in any wait
still running then. A step takes at least its set-up and the seconds its record gives.
"""

from collections.abc import Iterator

from splitpin.planning.check.fault import Fault
from splitpin.planning.check.hands import own_seconds
from splitpin.planning.check.history import History
from splitpin.records.plan import Plan


def clock_faults(history: History, plan: Plan) -> Iterator[Fault]:
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
    for index, least in sorted(own_seconds(history.did, history.definitions).items()):
        if plan.steps[index].seconds < least:
            yield Fault(index + 1, "clock", f"takes {plan.steps[index].seconds} s, and its record gives {least} s")
