"""Whether everything the plan opens is needed by something it does afterwards.

A component is needed when a task takes it out, or when the same steps without it leave something else behind it, held
or unreached. That covers what stands in the way, and a carrier of something that is worked on at the bench.
"""

from collections.abc import Iterator

from splitpin.planning.check.access import joint_faults, lifts
from splitpin.planning.check.definitions import Asked
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.planning.check.tasks import reach_faults, targets


def needless_faults(history: History, doing: tuple[Asked, ...]) -> Iterator[Fault]:
    """Components and joints opened that nothing asked for."""
    wanted_out = targets(doing, history.definitions)
    as_it_is = _obstacles(history, doing, "")
    for component, (taken, *_) in history.did["take"].items():
        if component not in wanted_out and not _obstacles(history.without(component), doing, component) - as_it_is:
            yield Fault(taken + 1, "needless", f"take {component}, which nothing needs")
    used = {joint for lift in lifts(history) for joint in lift.joints} | {task.joint for task in doing}
    for joint, (undone, *_) in history.did["undo"].items():
        if joint not in used:
            yield Fault(undone + 1, "needless", f"undo {joint}, which nothing needs")


def _obstacles(history: History, doing: tuple[Asked, ...], but: str) -> set[Fault]:
    faults = {fault for lift in lifts(history) if lift.component != but for fault in lift.faults}
    return faults | set(joint_faults(history)) | set(reach_faults(history, doing))
