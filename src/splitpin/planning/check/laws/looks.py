"""Laws 17 to 22: the state that loads a joint, staged re-admission, last covers, disturbances, readings, limits."""

from __future__ import annotations

from collections.abc import Iterator

from splitpin.planning.check.disturbances import disturbed
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.laws.case import Case, broken


def loaded(case: Case) -> Iterator[Fault]:
    """Law 17. A joint is proved in the state that loads it; what hides it stays off until the last look, or the plan
    says how the look is had with it on."""
    library = case.definitions.library
    for name, joints in case.opened.items():
        circuit = case.definitions.circuits[name]
        state = library.media[circuit.medium].loaded
        proofs = case.definitions.after_remaking(circuit)
        steps = [index for proof in proofs for index in case.history.did["prove"].get(proof, ())]
        if state is not None and not any(case.state(index) == state for index in steps):
            yield broken(17, None, f"{' and '.join(joints)} are not looked at {state}, which loads them")
    for proof in case.history.did["prove"]:
        for again in library.proofs[proof].looks_again:
            last, row = case.history.last("prove", again), case.proof(again)
            if last is None or (row is not None and row.seen_covered):
                continue
            demand = case.demands.get(proof)
            for joint in demand.joints if demand is not None else ():
                if case.history.before_joint(joint, last):
                    yield broken(17, last, f"{joint} is covered at its last look, in {again}")


def readmitted(case: Case) -> Iterator[Fault]:
    """Law 18. Re-admission is staged: cracked, seen dry, opened fully, and only then power."""
    library = case.definitions.library
    for name in case.opened:
        circuit = case.definitions.circuits[name]
        leak = [one for one in case.definitions.after_remaking(circuit) if library.proofs[one].names_joints]
        for condition in case.isolating(circuit) if leak else ():
            valves = [one for one in case.role(circuit, "isolates", condition) if case.points[one].kind == "valve"]
            released = case.history.first("release", condition)
            if valves and released is not None:
                yield from _staged(case, name, valves, leak, released)


def _staged(case: Case, circuit: str, valves: list[str], leak: list[str], released: int) -> Iterator[Fault]:
    settings = sorted(setting for valve in valves for setting in case.settings(valve))
    cracked = [index for index, to in settings if to == "cracked" and index >= released]
    opened = [index for index, to in settings if to == "open" and index >= released]
    looked = [index for proof in leak for index in case.history.did["prove"].get(proof, ())]
    if not cracked or not opened or cracked[0] > opened[0]:
        yield broken(18, released, f"{circuit} is not cracked open before it is opened")
        return
    if not any(cracked[0] < index < opened[-1] for index in looked):
        yield broken(18, opened[-1], f"{circuit} is opened fully before its joints are seen dry")
    for condition, steps in case.history.did["release"].items():
        takes_away = case.definitions.library.conditions[condition].takes_away
        if "powered" in takes_away and steps[-1] < opened[-1]:
            yield broken(18, steps[-1], f"power before {circuit} is open and dry")


def last_cover(case: Case) -> Iterator[Fault]:
    """Law 19. "Nothing left inside" and "turns freely by hand" come before the last cover of the space."""
    for lift in case.lifted:
        record = case.definitions.components[lift.component]
        if not (record.forms or record.guards):
            continue
        within = _last_within(case, lift.component, lift.fitted)
        looked = case.acts("look-inside", lift.component, "inside", record.title)
        if not any(within < index <= lift.fitted for index in looked):
            yield broken(19, lift.fitted, f"{lift.component} goes on without a look that nothing is left inside")
    for name in sorted(case.touched):
        record = case.definitions.components[name]
        covers = [case.history.back("fit", one) for one in case.covers(name)]
        if not record.rotates or not covers:
            continue
        turned = case.acts("turn-by-hand", name, "by hand", record.title)
        back = case.history.last("fit", name)
        if not any((back is None or back < index) and index <= max(covers) for index in turned):
            yield broken(19, max(covers), f"{name} is not turned by hand before its last cover")


def _last_within(case: Case, cover: str, fitted: int) -> int:
    """The last step, before the cover goes on, that works behind it."""
    behind = {one.id for one in case.definitions.assembly.joint if any(cover in front for front in one.behind)}
    components = case.definitions.components
    behind |= {one for one in components if any(cover in front for front in case.definitions.in_front(one))}
    found = [-1]
    for action in ("fit", "remake", "work", "seal"):
        for thing, steps in case.history.did[action].items():
            if thing in behind:
                found += [index for index in steps if index < fitted]
    return max(found)


def brought(case: Case) -> Iterator[Fault]:
    """Law 20. Put back like for like brings its look, changed or replaced its measurement, and the plan says which;
    what is compared is read at one state."""
    for one in disturbed(case.history, case.lifted, case.doing):
        row, how = case.proof(one.proof), one.kind.replace("_", " ")
        if one.proof not in case.history.did["prove"] or row is None:
            yield broken(20, None, f"{one.thing} is {how}, which brings {one.proof}: it is not proved")
        elif not any((by.thing, by.disturbance) == (one.thing, one.kind) for by in row.brought):
            yield broken(20, None, f"{one.proof} does not say that {one.thing} is {how}")
    for proof, steps in case.history.did["prove"].items():
        states = {state for index in steps if (state := case.state(index)) is not None}
        for reading in case.definitions.library.proofs[proof].reading:
            for index in case.acts("as-found", reading.id):
                found = case.state(index)
                if states and found is not None and found not in states:
                    yield broken(20, index, f"{reading.id} is found {found} and left {' or '.join(sorted(states))}")


def as_found(case: Case) -> Iterator[Fault]:
    """Law 21. The readings that judge the end are taken as found while the plant still runs, in the same rows."""
    library = case.definitions.library
    for proof in case.history.did["prove"]:
        listed = case.proof(proof)
        rows = {row.id: row for row in (listed.readings if listed is not None else ())}
        for reading in library.proofs[proof].reading:
            row = rows.get(reading.id)
            if reading.as_found is None or row is None or row.not_found:
                continue
            state = reading.as_found.state or "running"
            ends = [case.goes(one) for one in case.history.did["make"] if state in library.conditions[one].takes_away]
            taken = case.acts("as-found", reading.id, reading.title)
            if not row.as_found or not taken:
                yield broken(21, None, f"{reading.id} is not taken as found, and nothing says why")
            elif ends and taken[0] > min(ends):
                yield broken(21, taken[0], f"{reading.id} is taken as found when the plant no longer runs")


def limited(case: Case) -> Iterator[Fault]:
    """Law 22. A limit is printed with its source and in the unit of its reading, or left open with a note for it."""
    library = case.definitions.library
    for row in case.plan.proofs:
        wanted = (
            {reading.id: reading.limit for reading in library.proofs[row.id].reading}
            if row.id in library.proofs
            else {}
        )
        for reading in row.readings:
            limits = [one for file in library.limits.values() for one in file.limit if one.id == wanted.get(reading.id)]
            bound = (reading.min, reading.max) != (None, None)
            if bound and not reading.source:
                yield broken(22, None, f"{reading.id} has a limit without its source")
            if bound and limits and reading.unit not in {limit.unit for limit in limits}:
                yield broken(22, None, f"{reading.id} is in {reading.unit}, its limit in {limits[0].unit}")
            if not bound and wanted.get(reading.id) is not None and not (reading.note or reading.source):
                yield broken(22, None, f"{reading.id} has no limit, and no note where it comes from")
