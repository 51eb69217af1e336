"""Whether every hazard is spoken of before the step that meets it.

Reading of the definitions. A caution stands with the step that first needs it, or with one before; it is left out of
the later ones until a condition that keeps its hazard away has been released: the next step that needs it has it again.
What keeps it away is what must hold before its medium or boundary is opened, what isolates the medium's circuits, and a
condition that has the caution itself. The cautions of a medium stand before the first joint of its circuits (or the
first guard over it), those of a boundary before the first lift that disturbs it, those of a condition or proof before
its first step.
"""

from collections.abc import Iterator

from splitpin.planning.check.access import Lift
from splitpin.planning.check.definitions import Asked
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History
from splitpin.planning.check.procedures import procedure_lines
from splitpin.planning.check.tasks import work_steps
from splitpin.records.plan import Plan


def caution_faults(history: History, plan: Plan, lifted: tuple[Lift, ...], doing: tuple[Asked, ...]) -> Iterator[Fault]:
    """Cautions missing, late, or with other words than the list has; that none is said for nothing is law 30."""
    library = history.definitions.library
    said: dict[str, list[int]] = {}
    for index, step in enumerate(plan.steps):
        for caution in step.cautions:
            said.setdefault(caution.id, []).append(index)
            record = library.cautions.get(caution.id)
            if record is None or record.word != caution.word or record.hazard.rstrip(".") not in caution.text:
                yield Fault(step.n, "caution-words", f"{caution.id} is not as the list of cautions has it")
    for name, index in sorted(set(due(history, lifted, doing))):
        met_again = [end for end in releases(history, name) if end <= index]
        since = max(met_again, default=0)
        if not any(since <= place <= index for place in said.get(name, ())):
            yield Fault(index + 1, "caution-missing", f"{name} does not stand before the step that needs it")


def releases(history: History, caution: str) -> list[int]:
    """The steps from which on the caution may be needed again: the first after the release of what keeps it away."""
    definitions, library = history.definitions, history.definitions.library
    keeping = {row.id for row in library.conditions.values() if caution in row.cautions}
    keeping |= {row.id for row in library.conditions.values() for step in row.make if caution in step.cautions}
    for medium in library.media.values():
        keeping.update(medium.before_opening if caution in medium.cautions else ())
    for boundary in library.boundaries.values():
        keeping.update(boundary.before_opening if caution in boundary.cautions else ())
    for circuit in definitions.assembly.circuit:
        if caution in library.media[circuit.medium].cautions:
            keeping.update((*definitions.before_opening(circuit), *(way.makes for way in circuit.isolate)))
    ending = {end for name in keeping for end in definitions.released_by(name)}
    return sorted(steps[-1] + 1 for name, steps in history.did["release"].items() if name in ending)


def due(history: History, lifted: tuple[Lift, ...], doing: tuple[Asked, ...]) -> Iterator[tuple[str, int]]:
    """Every caution with a step that needs it; a step may come several times."""
    definitions, library = history.definitions, history.definitions.library
    for joint, (undone, *_) in history.did["undo"].items():
        record = definitions.joints[joint]
        for caution in record.cautions:
            yield caution, undone
        if record.circuit is not None:
            for caution in library.media[definitions.circuits[record.circuit].medium].cautions:
                yield caution, undone
    for lift in lifted:
        own = definitions.components[lift.component]
        for caution in own.cautions:
            yield caution, lift.taken
        for boundary in own.forms:
            for caution in library.boundaries[boundary].cautions:
                yield caution, lift.taken
        for medium in own.guards:
            for caution in library.media[medium].cautions:
                yield caution, lift.taken
    for task in doing:
        for caution in task.work.cautions if task.work is not None else ():
            for step in work_steps(history, task)[:1]:
                yield caution, step
    for condition, steps in history.did["make"].items():
        for caution in library.conditions[condition].cautions:
            yield caution, steps[0]
    for proof, steps in history.did["prove"].items():
        for caution in library.proofs[proof].cautions:
            yield caution, steps[0]
    for index, line in procedure_lines(history):
        for caution in line.cautions:
            yield caution, index
