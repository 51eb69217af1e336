"""What the steps of a plan do to the plant, one after another: when each thing left and came back, and who was away.

Steps are counted from 0 here. A question about step i is answered as the plant stands just before it: a component
taken by step 3 and fitted by step 8 is away at steps 4 to 8.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from splitpin.planning.check.definitions import Definitions
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.hands import begins
from splitpin.records.base import Behind
from splitpin.records.plan import Plan, Step

# What each action is done to, and whether it may be done once only.
_OBJECT = {
    "make": ("condition", False), "confirm": ("condition", True), "undo": ("joint", True),
    "take": ("component", True), "work": ("component", False), "seal": ("joint", False),
    "fit": ("component", True), "remake": ("joint", False), "release": ("condition", False),
    "prove": ("proof", False),
}  # fmt: skip

# A pattern's steps: all pieces started by hand, then its stages; one more goes round to a torque.
_PATTERN_STEPS = {"cross": 4, "even": 3, "staged": 4}


@dataclass(frozen=True)
class History:
    """For every action, what it was done to and by which steps, in order; `ends` says how each component left."""

    definitions: Definitions
    steps: tuple[Step, ...]
    did: dict[str, dict[str, tuple[int, ...]]]
    ends: dict[str, str]
    begins: tuple[int, ...]  # the second at which each step's own work begins, its set-up done

    @cached_property
    def working(self) -> tuple[int, ...]:
        """The steps that do a task."""
        return tuple(index for index, step in enumerate(self.steps) if step.action == "work")

    def first(self, action: str, thing: str) -> int | None:
        """The first step that did this to that, or none."""
        found = self.did[action].get(thing)
        return found[0] if found else None

    def last(self, action: str, thing: str) -> int | None:
        """The last step that did this to that, or none."""
        found = self.did[action].get(thing)
        return found[-1] if found else None

    def back(self, action: str, thing: str) -> int:
        """The step that brought it back; past the last step where nothing did."""
        found = self.last(action, thing)
        return len(self.steps) if found is None else found

    def done_s(self, step: int) -> int:
        """When this step is over, with the wait that it starts."""
        return self.steps[step].start_s + self.steps[step].seconds + self.steps[step].wait_s

    def without(self, component: str) -> "History":
        """The same history, had this component stayed where it was."""
        did = dict(self.did)
        for action in ("take", "fit"):
            did[action] = {key: value for key, value in did[action].items() if key != component}
        return replace(self, did=did)

    # where things are

    def away(self, component: str, step: int) -> bool:
        """Taken by itself and not yet back: out or aside."""
        taken = self.first("take", component)
        return taken is not None and taken < step <= self.back("fit", component)

    def out(self, component: str, step: int) -> bool:
        """Taken right out by itself and not yet back."""
        return self.away(component, step) and self.ends.get(component) == "out"

    def clear(self, component: str, step: int) -> bool:
        """Out of the way: out or aside by itself, or carried out with its carrier."""
        return self.away(component, step) or any(self.out(one, step) for one in self.definitions.carriers(component))

    def carrier_out(self, ends: tuple[str, ...], step: int, *, of_itself: bool = True) -> str | None:
        """The innermost component that is out and has all these ends in its group. With `of_itself` false the
        component at the end of its own chain does not count as its carrier."""
        chains = [self.definitions.chain(end) if of_itself else self.definitions.carriers(end) for end in ends]
        for carrier in chains[0]:
            if self.out(carrier, step) and all(carrier in chain for chain in chains):
                return carrier
        return None

    def in_the_way(
        self,
        behind: Behind,
        carrier: str | None,
        step: int,
        at_bench: Behind | None = None,
        around: tuple[str, ...] = (),
    ) -> tuple[str, ...]:
        """What still stands in the way of the best of these sets: nothing means that one of them is clear. With a
        carrier that is out, the sets `at_bench` hold instead where there are some, and only what is still fixed to that
        carrier can stand in the way. What is carried by one of `around` does not clear the way by moving with it."""
        if carrier is not None and at_bench is not None:
            behind = at_bench
        choices = [tuple(one for one in front if self._blocks(one, carrier, step, around)) for front in behind]
        return min(choices, key=len)

    def before_joint(self, joint: str, step: int) -> tuple[str, ...]:
        """What stands in the way of this joint."""
        record = self.definitions.joints[joint]
        one, other = (self.definitions.chain(end) for end in record.between)
        around = tuple(carrier for carrier in one if carrier in other)
        carrier = self.carrier_out(record.between, step)
        return self.in_the_way(record.behind, carrier, step, record.bench_behind, around)

    def before_component(self, component: str, step: int) -> tuple[str, ...]:
        """What stands in the way of this component by the way that is clearest."""
        carrier = self.carrier_out((component,), step, of_itself=False)
        ways = self.definitions.components[component].ways
        around = self.definitions.carriers(component)
        return min((self.in_the_way(way.behind, carrier, step, way.bench_behind, around) for way in ways), key=len)

    def _blocks(self, component: str, carrier: str | None, step: int, around: tuple[str, ...]) -> bool:
        if carrier is None:
            return not self.clear(component, step)
        chain = self.definitions.chain(component)
        if carrier not in chain:
            return False
        below = [one for one in chain[1 : chain.index(carrier)] if one not in around]
        return component != carrier and not any(self.away(one, step) for one in (component, *below))

    # conditions

    def ready(self, condition: str) -> tuple[int, int] | None:
        """The step that completes the condition, and the second from which it holds; none where nothing makes it."""
        steps = [step for action in ("make", "confirm") if (step := self.last(action, condition)) is not None]
        return None if not steps else (max(steps), self.done_s(max(steps)))

    def given_up(self, condition: str) -> int:
        """The first step of its release; past the last step where it is never released. A condition that has no
        release of its own lasts as long as those it was made after: water stays out until the valves are opened."""
        return min(
            len(self.steps) if (first := self.first("release", one)) is None else first
            for one in self.definitions.released_by(condition)
        )

    def holds(self, condition: str, first: int, last: int) -> bool:
        """Whether the condition holds from the start of one step to the end of another."""
        ready = self.ready(condition)
        if ready is None or not ready[0] < first:
            return False
        begun = self.begins[first] if first < len(self.steps) else ready[1]
        return ready[1] <= begun and self.given_up(condition) > last


def read_history(plan: Plan, definitions: Definitions) -> tuple[History, list[Fault]]:
    """The history of the plan's steps, with faults for steps that name nothing, or the wrong thing, or come twice."""
    faults: list[Fault] = []
    known: dict[str, Callable[[str], bool]] = {
        "component": lambda thing: thing in definitions.components,
        "joint": lambda thing: thing in definitions.joints,
        "condition": lambda thing: thing in definitions.library.conditions,
        "proof": lambda thing: thing in definitions.library.proofs,
    }
    handed_over = False
    did: dict[str, dict[str, list[int]]] = {action: {} for action in _OBJECT}
    for index, step in enumerate(plan.steps):
        if step.n != index + 1:
            faults.append(Fault(step.n, "numbering", f"step {index + 1} is numbered {step.n}"))
        if step.action == "record":
            handed_over = True
            continue
        if handed_over:
            faults.append(Fault(step.n, "hand-over", f"{step.action} after the hand-over has begun"))
        kind, once = _OBJECT[step.action]
        thing = getattr(step, kind)
        if thing is None and not (step.action == "work" and step.joint is not None):
            faults.append(Fault(step.n, "unnamed", f"{step.action} does not say which {kind}"))
        elif thing is not None and not known[kind](thing):
            faults.append(Fault(step.n, "unknown", f"there is no {kind} {thing}"))
        elif thing is not None:
            before = did[step.action].setdefault(thing, [])
            if before and once:
                faults.append(Fault(step.n, "twice", f"{step.action} {thing} a second time"))
            else:
                before.append(index)
    when = {action: {thing: tuple(found) for thing, found in things.items()} for action, things in did.items()}
    history = History(
        definitions,
        plan.steps,
        when,
        {component.id: component.ends for component in plan.opened.components},
        begins(plan.steps, when, definitions),
    )
    for joint, found in history.did["remake"].items():
        faults += _closing_faults(joint, found, history)
    faults += _pairs(history, "take", "fit")
    faults += _pairs(history, "undo", "remake")
    return history, faults


def _closing_faults(joint: str, found: tuple[int, ...], history: History) -> Iterator[Fault]:
    """A joint is closed in one go, by as many steps as its pattern has, and at last to its torque."""
    record, aim = history.definitions.joints[joint], history.steps[found[-1]].torque_nm
    if history.definitions.fixing(joint).least_nm is not None:
        if not history.steps[found[0]].record or len(found) == 1:
            yield Fault(found[0] + 1, "measure", f"{joint} is closed before its nuts are measured")
        found = found[1:] or found
    wanted = 1 if record.pattern is None or record.count == 1 else _PATTERN_STEPS[record.pattern] + (aim is not None)
    if len(found) > wanted:
        yield Fault(found[-1] + 1, "twice", f"remake {joint} a second time")
    elif len(found) < wanted:
        yield Fault(found[-1] + 1, "pattern", f"{joint} is not started by hand and tightened in all its stages")
    if found[-1] - found[0] != len(found) - 1:
        yield Fault(found[-1] + 1, "pattern", f"{joint} is left half tight for something else")
    if record.torque_nm is not None and aim != record.torque_nm:
        yield Fault(found[-1] + 1, "torque", f"{joint} is tightened to {aim} N·m, not {record.torque_nm}")


def _pairs(history: History, away: str, back: str) -> list[Fault]:
    """What leaves comes back, and in that order."""
    faults = []
    for thing, (left, *_) in history.did[away].items():
        if thing not in history.did[back]:
            faults.append(Fault(left + 1, f"no-{back}", f"{away} {thing}, and nothing to {back} it"))
    for thing, (returned, *_) in history.did[back].items():
        came = history.first(away, thing)
        if came is None or came > returned:
            faults.append(Fault(returned + 1, f"no-{away}", f"{back} {thing} before any step to {away} it"))
    return faults
