"""Laws 1, 2, 3, 8, 9: conditions made and released, the states that they take away, their strength, who is told.

Reading of the definitions. One condition protects another where the other comes after it; between strangers (gas and
drinking water) the order of release is free. A plant at heat runs as well.
"""

from __future__ import annotations

from collections.abc import Iterator

from splitpin.planning.check.fault import Fault
from splitpin.planning.check.laws.case import Case, broken


def released_once(case: Case) -> Iterator[Fault]:
    """Law 1. A condition made is released once, after the last thing that leans on it, or is left so with a label;
    one of a place lasts as long as any work there."""
    history, library = case.history, case.definitions.library
    rows = {row.id: row for row in case.plan.conditions}
    for condition in history.did["make"]:
        record, released = library.conditions[condition], history.did["release"].get(condition, ())
        left = rows[condition].left if condition in rows else None
        if record.release and not released and left is None:
            yield broken(1, None, f"{condition} is neither released nor left with a label")
        if released and (left is not None or len(released) > len(record.release)):
            yield broken(1, released[-1], f"{condition} is released more than once, or released and left")
        for proof in history.did["prove"]:
            if condition in library.proofs[proof].held and released and history.did["prove"][proof][-1] > released[0]:
                yield broken(1, released[0], f"{condition} is released before {proof} is done")
        if record.of_place:
            yield from _while_there(case, condition)
    for need in case.needs:
        for condition in need.conditions if need.must else ():
            kept = any(history.holds(one, need.first, need.last) for one in need.conditions)
            if history.holds(condition, need.first, need.first) and not kept:
                yield broken(1, history.given_up(condition), f"{condition} is released before {need.who} is back")


def _while_there(case: Case, condition: str) -> Iterator[Fault]:
    there = set(_places(case, condition))
    begun, end = case.history.ready(condition), case.history.given_up(condition)
    for index, step in enumerate(case.steps):
        if step.condition == condition or step.action == "record" or step.position not in there:
            continue
        if begun is None or not begun[0] < index < end:
            yield broken(1, index, f"{step.action} at {step.position} while {condition} does not hold")


def _places(case: Case, condition: str) -> Iterator[str]:
    """The positions of what asks for a condition of the place."""
    media = case.definitions.library.media
    for component in case.definitions.assembly.component:
        asked = {one for medium in component.guards for one in media[medium].before_opening}
        asked |= {one for work in component.work.values() for one in work.conditions}
        if condition in asked:
            yield component.position


def released_backwards(case: Case) -> Iterator[Fault]:
    """Law 2. Releases run backwards through the makings, unless the data say otherwise; drains are shut before a feed
    is opened."""
    history, library = case.history, case.definitions.library
    ends = {one: steps for one, steps in history.did["release"].items() if case.made(one)}
    for early, first in ends.items():
        for late, last in ends.items():
            if early not in case.before(late) or case.begun(early) >= case.begun(late) or first[0] >= last[0]:
                continue
            waits = library.conditions[late].release_after
            proved = [history.did["prove"][one][-1] for one in waits if one in history.did["prove"]]
            if early not in waits and not any(first[-1] < step < last[0] for step in proved):
                yield broken(2, first[0], f"{early}, made before {late}, is released before it")
    for circuit in case.definitions.assembly.circuit:
        for feed in circuit.feeds or ():
            for index, to in case.settings(feed):
                for drain in case.role(circuit, "drains") if to in ("open", "joined", "on", "cracked") else ():
                    stands = [setting for step, setting in case.settings(drain) if step < index]
                    if stands and stands[-1] != case.points[drain].normally:
                        yield broken(2, index, f"{feed} is opened while {drain} stands open")


def possible(case: Case) -> Iterator[Fault]:
    """Law 3. No step stands where a condition takes away the state that it needs, and a wait is filled only with what
    its state allows."""
    history, library = case.history, case.definitions.library
    for condition in (*history.did["make"], *history.did["confirm"]):
        taken, end = library.conditions[condition].takes_away, history.given_up(condition)
        for index in range(case.goes(condition) + 1, min(end, len(case.steps))):
            if case.state(index) in taken:
                yield broken(3, index, f"needs the plant {case.state(index)} while {condition} holds")
    for waiting, step in enumerate(case.steps):
        state = case.state(waiting)
        if not step.wait_s or state is None:
            continue
        for index in range(waiting + 1, len(case.steps)):
            allowed = (None, state, "running" if state == "at-heat" else state)
            if history.begins[index] < history.done_s(waiting) and case.state(index) not in allowed:
                yield broken(3, index, f"needs the plant {case.state(index)} in a wait that needs it {state}")


def least_strength(case: Case) -> Iterator[Fault]:
    """Law 8. The least condition that serves is made, and only the member asked for is touched."""
    library = case.definitions.library
    for condition in case.history.did["make"]:
        lesser = library.conditions[condition].satisfies
        isolates = {c.id for c in case.definitions.assembly.circuit if condition in [way.makes for way in c.isolate]}
        guarded = {
            medium
            for lift in case.lifted
            for one in case.definitions.group(lift.component)
            for medium in case.definitions.components[one].guards
        }
        wanted = isolates & set(case.opened) or any(case.definitions.circuits[c].medium in guarded for c in isolates)
        wanted = wanted or any(condition in task.work.conditions for task in case.doing if task.work is not None)
        if lesser and not wanted:
            step = case.history.did["make"][condition][0]
            yield broken(
                8, step, f"{condition} is made where {' or '.join(lesser)} would serve: nothing of it is opened"
            )
    concerned = {c.id for condition in case.history.did["make"] for c in case.circuits_of(condition)} | set(case.opened)
    supplied = {
        circuit.id
        for circuit in case.definitions.assembly.circuit
        if any(way.makes in case.history.did["make"] for way in circuit.isolate)
    }
    for index, line in enumerate(case.steps):
        for one in line.points:
            point = case.points.get(one.id)
            if point is None or point.circuit is None:
                continue
            if point.circuit not in (supplied if point.kind in ("supply", "switch") else concerned):
                yield broken(8, index, f"{point.id} is set, and nothing of {point.circuit} is asked for")


def told(case: Case) -> Iterator[Fault]:
    """Law 9. People who lose a service are told before it goes, and when it is back."""
    for condition in case.history.did["make"]:
        tells = case.definitions.library.conditions[condition].tells
        if tells is None:
            continue
        loses = tells.loses or case.definitions.assembly.assembly.service
        told = case.acts("tell", tells.who, tells.who, *([loses] if loses else []))
        goes = case.goes(condition)
        if not any(index <= goes for index in told):
            yield broken(9, goes, f"{tells.who} are not told before {condition} is made")
        released = case.history.last("release", condition)
        if released is not None and not any(index >= released for index in told):
            yield broken(9, released, f"{tells.who} are not told that {condition} is over")
