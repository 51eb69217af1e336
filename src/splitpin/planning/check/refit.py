"""Whether new seals go in at their turn, and whether what need not stay open is back before anything is released.

Reading of the definitions. A seal goes in once the first lift that undoes its joint has parted the faces, or for its
own sake once the joint is undone; one that goes on before positioning, before the last of those lifts comes back.
What may come back late is what hides a joint or component from a proof that it brought at the open stage, what
stands in front of that or of its joints in turn, and the joints of such lifts; with sets to choose from, anything in
any of them may.
"""

from collections.abc import Iterator

from splitpin.planning.check.access import Lift
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.planning.check.proofs import Demand


def seal_faults(history: History, lifted: tuple[Lift, ...]) -> Iterator[Fault]:
    """Joints closed without the seal that they need, seals too late or of the wrong kind, seals nothing asks for."""
    definitions = history.definitions
    for joint, (undone, *_) in history.did["undo"].items():
        record = definitions.joints[joint]
        steps = history.did["seal"].get(joint, ())
        if record.seal is None:
            continue
        seal = definitions.library.seals[record.seal]
        if not steps:
            if seal.policy == "renew":
                yield Fault(history.back("remake", joint) + 1, "seal-missing", f"{joint} is closed without a new seal")
            continue
        if len(steps) > 1:
            yield Fault(steps[1] + 1, "seal", f"{joint} gets its seal twice")
        closes = history.first("remake", joint)
        if steps[0] < undone or (closes is not None and steps[0] > closes):
            yield Fault(steps[0] + 1, "seal", f"{joint} gets its seal while it is made")
        if not {seal.id, seal.part or seal.id} & set(history.steps[steps[0]].seals):
            yield Fault(steps[0] + 1, "seal", f"{joint} needs {seal.id}, and the step does not name it")
        apart = [lift.taken for lift in lifted if joint in lift.joints]
        if apart and steps[0] < min(apart):
            yield Fault(steps[0] + 1, "seal", f"{joint} gets its seal before its faces are apart")
        fits = [lift.fitted for lift in lifted if joint in lift.joints]
        if seal.placed == "before-positioning" and fits and steps[0] > max(fits):
            yield Fault(steps[0] + 1, "seal", f"{seal.id} goes on before the component does, not after")
    for joint, steps in history.did["seal"].items():
        if joint not in history.did["undo"] or definitions.joints[joint].seal is None:
            yield Fault(steps[0] + 1, "needless", f"a seal for {joint}, which is not opened or has none")


def late_faults(history: History, lifted: tuple[Lift, ...], demands: dict[str, Demand]) -> Iterator[Fault]:
    """What comes back only after something is released, though no proof needs it open."""
    releases = [steps[0] for steps in history.did["release"].values()]
    if not releases or "close-first" in history.definitions.visit.firm.habits.off:
        return
    first = min(releases)
    may_wait = _kept_open(history, first, demands, lifted)
    joints = {joint for lift in lifted if lift.component in may_wait for joint in lift.joints}
    for action, late in (("fit", may_wait), ("remake", joints)):
        for thing, steps in history.did[action].items():
            if steps[-1] > first and thing not in late:
                yield Fault(
                    first + 1, "late-return", f"{history.steps[first].condition} released before {action} {thing}"
                )


def _kept_open(history: History, after: int, demands: dict[str, Demand], lifted: tuple[Lift, ...]) -> set[str]:
    definitions = history.definitions
    found: set[str] = set()
    for proof, demand in demands.items():
        last = history.last("prove", proof)
        if definitions.library.proofs[proof].stage == "open" and last is not None and last > after:
            for joint in demand.joints:
                found |= {one for front in definitions.joints[joint].behind for one in front}
            for component in demand.components:
                found |= {one for front in definitions.in_front(component) for one in front}
    waiting = sorted(found)
    while waiting:
        late = waiting.pop()
        joints = [joint for lift in lifted if lift.component == late for joint in lift.joints]
        hidden = [front for joint in joints for front in definitions.joints[joint].behind]
        for front in (*definitions.in_front(late), *hidden):
            for one in front:
                if one not in found:
                    found.add(one)
                    waiting.append(one)
    return found
