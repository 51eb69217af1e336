"""Whether the steps of a condition or a proof are those of its record: all of them, in order, with their waits."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from splitpin import units
from splitpin.planning.check.fault import Fault
from splitpin.planning.check.history import History

if TYPE_CHECKING:
    from splitpin.records.procedure import ProcedureStep


def procedure_lines(history: History) -> Iterator[tuple[int, ProcedureStep]]:
    """Every step that makes or releases a condition or proves a proof, with its own line of the record."""
    library = history.definitions.library
    for condition, steps in history.did["make"].items():
        yield from zip(steps, library.conditions[condition].make, strict=False)
    for condition, steps in history.did["release"].items():
        yield from zip(steps, library.conditions[condition].release, strict=False)
    for proof, steps in history.did["prove"].items():
        yield from zip(steps, library.proofs[proof].step, strict=False)


def procedure_faults(
    history: History, what: str, steps: tuple[int, ...], record: tuple[ProcedureStep, ...]
) -> Iterator[Fault]:
    """A procedure's steps: all of them, once, in order, each after the wait of the one before, with its own wait."""
    if len(steps) != len(record):
        yield Fault(steps[0] + 1, "procedure", f"{what} has {len(steps)} steps, not {len(record)}")
        return
    for index, wanted in zip(steps, record, strict=True):
        step = history.steps[index]
        if wanted.text.rstrip(".") not in step.text:
            yield Fault(step.n, "procedure", f"{what}: the step here is {wanted.text!r}")
        if step.wait_s != units.seconds(wanted.wait_min):
            yield Fault(step.n, "wait", f"{what} waits {step.wait_s} s, not {units.seconds(wanted.wait_min)} s")
        if step.record != wanted.record:
            yield Fault(step.n, "procedure", f"{what} has not the blank that the procedure has")
    for before, after in pairwise(steps):
        if not over(history, before, after):
            yield Fault(after + 1, "wait", f"{what} goes on before its wait is over")


def over(history: History, before: int, after: int) -> bool:
    """Whether a step, its wait with it, is over when another's own work begins."""
    return before < after and history.done_s(before) <= history.begins[after]
