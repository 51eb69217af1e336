"""Laws 13, 14, 16: what is examined after work, running with something off, safety devices made to operate."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.planning.check.fault import Fault
from splitpin.planning.check.laws.case import Case, broken, says

if TYPE_CHECKING:
    from splitpin.records.disturbance import Examination, Function

_RUNNING = ("pump-alone", "running", "at-heat")


def examined(case: Case) -> Iterator[Fault]:
    """Law 13. What follows work on this kind of plant is proved, after the last thing that brought it; each mode and
    safety device that the work touched is called by its name, with what is to be seen."""
    for examination in case.definitions.assembly.examination:
        after = tuple(_occasions(case, examination))
        for proof in examination.proofs if after else ():
            steps = case.history.did["prove"].get(proof)
            if steps is None:
                yield broken(13, None, f"{proof} is not proved, which {examination.id} asks for")
            elif steps[0] <= max(after):
                yield broken(13, steps[0], f"{proof} is proved before what {examination.id} is about is back")
    listed = {row.id: row for row in case.plan.functions}
    for function in touched_functions(case):
        row = listed.get(function.id)
        if row is None or (row.call, row.see, row.proof) != (function.call, function.see, function.proof):
            yield broken(13, None, f"{function.id} is not among the functions that are called")
        elif not case.acts("function", function.id, function.call, function.see):
            yield broken(13, None, f"no step calls {function.id} and says what is to be seen")


def _occasions(case: Case, examination: Examination) -> Iterator[int]:
    """The steps after which the examination is due: those that put back what brought it."""
    of, history = set(examination.of), case.history
    for lift in case.lifted:
        forms = set(case.definitions.components[lift.component].forms)
        if "anything-opened" in examination.when and (not of or of & {lift.component, *forms}):
            yield max([lift.fitted, *(history.back("remake", joint) for joint in lift.joints)])
        if "boundary-disturbed" in examination.when and forms & (of or forms):
            yield max([lift.fitted, *(history.back("remake", joint) for joint in lift.joints)])
    if "anything-opened" in examination.when and not of:
        yield from (history.back("remake", joint) for joint in history.did["undo"])
    if "part-changed" in examination.when:
        for name in (case.new | case.adjusted) & (of or case.new | case.adjusted):
            yield history.last("fit", name) or max(history.did["work"].get(name, (0,)))
    if "settings-lost" in examination.when:
        for name in case.new & (of or case.new):
            if case.definitions.components[name].holds_settings:
                yield history.back("fit", name)
    if "stopped" in examination.when:
        for condition in history.did["make"]:
            if "running" in case.definitions.library.conditions[condition].takes_away:
                yield history.last("release", condition) or 0


def touched_functions(case: Case) -> Iterator[Function]:
    """The functions of the plant that the work touched."""
    for function in case.definitions.assembly.function:
        if set(function.components) & case.touched or set(function.circuits) & set(case.opened):
            yield function


def by_consent(case: Case) -> Iterator[Fault]:
    """Law 14. Running with something off that guards or seals is a choice: who decides, by whose consent, who is
    there, what watches, and the other way to do it."""
    for proof, steps in case.history.did["prove"].items():
        record = case.definitions.library.proofs[proof]
        for index in steps:
            state = case.state(index)
            if state not in _RUNNING if state is not None else record.plant != "running":
                continue
            off = [
                lift.component
                for lift in case.lifted
                if lift.taken < index < lift.fitted and _shields(case, lift.component)
            ]
            row = case.proof(proof)
            way = None if row is None else row.way
            if off and (way is None or not (way.decided_by and way.consent and way.watch and way.instead)):
                yield broken(14, index, f"{proof} runs with {' and '.join(off)} off, and nobody chose it")
                break


def _shields(case: Case, component: str) -> bool:
    record = case.definitions.components[component]
    return bool(record.forms or record.guards)


def device_proved(case: Case) -> Iterator[Fault]:
    """Law 16. A safety device is proved where its place can be reached, with the pass sign of its kind, before the
    source that it guards runs at length."""
    at_length = list(case.proofs_in("at-heat"))
    for function in touched_functions(case):
        if function.resets is None:
            continue
        called = case.acts("function", function.id, function.call)
        if not called:
            yield broken(16, None, f"{function.id} is not made to operate")
            continue
        if at_length and called[0] > at_length[0]:
            yield broken(16, at_length[0], f"runs at length before {function.id} is proved")
        if blockers := case.history.in_the_way(function.behind, None, called[0]):
            yield broken(16, called[0], f"{function.id} is called behind {' and '.join(blockers)}")
        if not any(says(case.steps[index], function.see) for index in called):
            yield broken(16, called[0], f"the step does not say what {function.id} must show")
