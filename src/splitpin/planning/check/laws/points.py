"""Laws 4 to 7: points set and set back, closed valves and feeds, what drives a circuit, energy in what is lifted."""

from __future__ import annotations

from collections.abc import Iterator

from splitpin.planning.check.fault import Fault
from splitpin.planning.check.laws.case import Case, broken

_OFF = ("off", "closed", "parted")


def set_back(case: Case) -> Iterator[Fault]:
    """Law 4. What a step sets, a later one sets back; each point is named, and within reach when it is used; one that
    was opened on a circuit with a leak proof is named in that proof."""
    for index, step in enumerate(case.steps):
        for one in step.points:
            if one.id not in case.points:
                yield broken(4, index, f"{one.id} is no point of this plant")
    yield from _unnamed(case)
    for point in case.points.values():
        settings = case.settings(point.id)
        for index, to in settings:
            if blockers := case.history.in_the_way(point.behind, None, index):
                yield broken(4, index, f"{point.id} is set to {to} behind {' and '.join(blockers)}")
        if settings and settings[-1][1] != point.normally:
            yield broken(4, settings[-1][0], f"{point.id} is left {settings[-1][1]}; normally it is {point.normally}")
        yield from _shut_in(case, point.id)
        yield from _looked_at(case, point.id)


def _shut_in(case: Case, name: str) -> Iterator[Fault]:
    """A cover that goes back over a point which does not stand as it normally is."""
    point = case.points[name]
    for cover in sorted({one for front in point.behind for one in front}):
        fitted = case.history.last("fit", cover)
        before = [to for index, to in case.settings(name) if fitted is not None and index < fitted]
        if before and before[-1] != point.normally:
            yield broken(4, fitted, f"{cover} goes back while {name} stands {before[-1]}")


def _unnamed(case: Case) -> Iterator[Fault]:
    """Steps whose record operates points by role, and which do not name those of this plant."""
    for index, line in case.lines.items():
        step = case.steps[index]
        if step.condition is not None:
            circuits = case.circuits_of(step.condition)
        else:
            demand = case.demands.get(step.proof or "")
            names = demand.circuits if demand is not None else []
            circuits = tuple(case.definitions.circuits[name] for name in dict.fromkeys(names))
            circuits = circuits or case.definitions.assembly.circuit
        for operate in line.operate:
            wanted = {point for circuit in circuits for point in case.role(circuit, operate.role, step.condition)}
            for point in sorted(one for one in wanted if (index, operate.to) not in case.settings(one)):
                yield broken(4, index, f"the step does not name {point}, which it sets to {operate.to}")


def _looked_at(case: Case, name: str) -> Iterator[Fault]:
    point, settings = case.points[name], case.settings(name)
    opened = [index for index, to in settings if to in ("open", "cracked", "joined")]
    if point.circuit is None or point.normally in ("on", "off", "open", "joined") or not opened:
        return
    proofs = case.definitions.after_remaking(case.definitions.circuits[point.circuit])
    leak = [one for one in proofs if case.definitions.library.proofs[one].names_joints]
    closed = settings[-1][0]
    for proof in leak[:1]:
        row, last = case.proof(proof), case.history.last("prove", proof)
        if row is None or name not in row.points or last is None or last < closed:
            yield broken(4, closed, f"{name} was opened, and {proof} does not name it after it is closed")


def isolated(case: Case) -> Iterator[Fault]:
    """Law 5. For each closed valve there is a sign that it holds, and what is done where it does not; a feed is shut
    and parted before anything is drained, and again after the last filling."""
    rows = {row.id: row for row in case.plan.conditions}
    for name in case.opened:
        circuit = case.definitions.circuits[name]
        for condition in case.isolating(circuit):
            row = rows.get(condition)
            if row is None or not row.sign or not row.if_not:
                missing = f"{condition} has no sign that it holds, or does not say what to do where it does not"
                yield broken(5, case.begun(condition), missing)
        first = min(case.history.did["undo"][case.opened[name][0]][0], *_openings(case, name))
        for feed in circuit.feeds or ():
            settings, wanted = case.settings(feed), ("parted",) if case.points[feed].kind == "link" else _OFF
            before = [to for index, to in settings if index < first]
            if not before or before[-1] not in wanted:
                yield broken(5, first, f"{feed} is not {wanted[-1]} before {name} is opened or drained")
            filled = [index for index, to in settings if to not in wanted]
            if filled and case.points[feed].kind == "link" and settings[-1][0] <= filled[-1]:
                yield broken(5, filled[-1], f"{feed} is not parted again after the last filling")


def _openings(case: Case, circuit: str) -> Iterator[int]:
    """The steps that open a drain of the circuit; past the last step where none does."""
    yield len(case.steps)
    for drain in case.role(case.definitions.circuits[circuit], "drains"):
        yield from (index for index, to in case.settings(drain) if to == "open")


def held_off(case: Case) -> Iterator[Fault]:
    """Law 6. What drives an opened circuit from outside is off first and released last."""
    for name, joints in case.opened.items():
        circuit = case.definitions.circuits[name]
        closing = [index for point in case.role(circuit, "isolates") for index, _ in case.settings(point)]
        first = min([case.history.did["undo"][joints[0]][0], *_openings(case, name), *closing])
        ends = [case.history.last("release", one) for one in case.isolating(circuit)]
        last = max([end for end in ends if end is not None], default=first)
        for driver in circuit.drivers or ():
            settings = case.settings(driver)
            off = [index for index, to in settings if to in _OFF]
            on = [index for index, to in settings if to not in _OFF]
            if not off or off[0] > first:
                yield broken(6, first, f"{driver} is not off and held off before {name} is shut, drained or opened")
            if any(index <= last for index in on):
                yield broken(6, on[0], f"{driver} is released before {name} is whole again")


def let_down(case: Case) -> Iterator[Fault]:
    """Law 7. Energy stored in what is lifted is let down, held or caught before its fixings; the holding ends by a
    step, before the hand turn and before the guard."""
    for lift in case.lifted:
        first = min([lift.taken, *(case.history.did["undo"][one][0] for one in lift.joints)])
        for name in sorted(case.definitions.group(lift.component)):
            for store in case.definitions.components[name].stores:
                if store.condition is not None and not case.history.holds(store.condition, first, first):
                    yield broken(7, first, f"the {store.kind} of {name} is not let down or held by {store.condition}")
                tools = {tool for index in range(first + 1) for tool in case.steps[index].tools}
                for choice in store.catch:
                    if not tools & set(choice):
                        yield broken(7, first, f"the {store.kind} of {name} is not caught in {' or '.join(choice)}")
    for condition in case.history.did["make"]:
        if case.definitions.library.conditions[condition].ends_open:
            yield from _ends_open(case, condition)


def _ends_open(case: Case, condition: str) -> Iterator[Fault]:
    end = case.history.first("release", condition)
    if end is None:
        yield broken(7, None, f"no step ends {condition}")
        return
    for lift in case.lifted:
        guards = case.definitions.components[lift.component].guards
        asked = {one for medium in guards for one in case.definitions.library.media[medium].before_opening}
        if condition in asked and lift.fitted < end:
            yield broken(7, end, f"{condition} is ended after {lift.component} is back on")
    turns = [i for i, step in enumerate(case.steps) if any(one.act == "turn-by-hand" for one in step.acts)]
    if turns and turns[-1] < end:
        yield broken(7, turns[-1], f"turned by hand while {condition} holds")
