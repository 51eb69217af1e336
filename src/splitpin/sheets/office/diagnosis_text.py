"""A diagnosis as plain text for a terminal: the checks in their sequence, and what to do on each answer."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap
from typing import TYPE_CHECKING

from splitpin.sheets.press import wording
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.units import clock

if TYPE_CHECKING:
    from splitpin.records.diagnosis import Diagnosis, DiagnosisSuspect

_INDENT = " " * 6


def diagnosis_text(diagnosis: Diagnosis, width: int = 80) -> str:
    """The diagnosis in lines of at most `width` columns, without a line end after the last. Notices are apart."""
    blocks = [_head(diagnosis, width)]
    blocks += [_suspect(diagnosis, row, width) for row in diagnosis.suspects]
    if diagnosis.suspects:
        blocks.append(_wrapped(diagnosis.otherwise, width, "    ", "    "))
    return wording.visible("\n\n".join("\n".join(block) for block in blocks))


def _wrapped(text: str, width: int, indent: str = _INDENT, hanging: str = _INDENT) -> list[str]:
    return wrap(text, width, initial_indent=indent, subsequent_indent=hanging, break_on_hyphens=False)


def _head(diagnosis: Diagnosis, width: int) -> list[str]:
    lines = _wrapped(f"{diagnosis.job}: {diagnosis.title}", width, "", "")
    lines += _wrapped(f"{wording.sentence(diagnosis.assembly_title)} ({diagnosis.assembly})", width, "", "")
    if diagnosis.report:
        lines += _wrapped(f"Reported: {diagnosis.report}", width, "", "  ")
    for symptom in diagnosis.symptoms:
        lines += _wrapped(f"Symptom: {wording.sentence(symptom.title)}", width, "", "  ")
    if not diagnosis.suspects:
        return lines
    return [*lines, "", *(line for text in summary(diagnosis) for line in _wrapped(text, width, "", ""))]


def summary(diagnosis: Diagnosis, t: Words = ENGLISH) -> Iterator[str]:
    """What the sequence is worth, in sentences."""
    times = {"find": clock(diagnosis.expected_find_s), "finish": clock(diagnosis.expected_finish_s)}
    if diagnosis.status == "proved":
        yield t("The fault is found after {find} on average and cured after {finish}; sequence proved best.", **times)
    else:
        yield t(
            "The fault is found after {find} on average and cured after {finish}; sequence at most {gap} from best.",
            gap=f"{diagnosis.gap_s} s",
            **times,
        )
    if diagnosis.comparison is not None:
        yield t(
            "Likeliest first would take {likeliest} to find it, quickest check first {quickest}.",
            likeliest=clock(diagnosis.comparison.likeliest_first_s),
            quickest=clock(diagnosis.comparison.cheapest_first_s),
        )
    if diagnosis.visits == 1:
        yield t("Likelihoods rest on 1 recorded visit and on the catalogue.")
    elif diagnosis.visits:
        yield t("Likelihoods rest on {n} recorded visits and on the catalogue.", n=diagnosis.visits)
    else:
        yield t("Likelihoods are the catalogue's; no recorded visit says otherwise yet.")


def live_caution(row: DiagnosisSuspect, t: Words = ENGLISH) -> str:
    """What stands before a check that needs the supply on, with the time that putting it back takes."""
    danger = t("DANGER: supply on for this check only, live parts within reach; by a competent person only.")
    after = t("Isolate and prove dead again afterwards.")
    if row.check.needs == "in-place" and not row.check.supply_s:
        return t("Supply on for this check; every cover stays closed.")
    if not row.check.supply_s:
        return f"{danger} {after}"
    back = t("Supply back and isolated again: {time} of the check.", time=clock(row.check.supply_s))
    return f"{danger} {after} {back}"


def answers(diagnosis: Diagnosis, row: DiagnosisSuspect, t: Words = ENGLISH) -> tuple[str, str]:
    """What to do when the check finds the fault, and when it does not."""
    repair = row.repair
    if repair.status == "impossible":
        reason = repair.reason or t("there is no plan")
        found = t("not ours to cure: {reason}. Make safe and hand on.", reason=reason)
    else:
        alone = clock(repair.elapsed_s)
        if repair.people != 1:
            own = t("{time} as a job of its own, {people}", time=alone, people=wording.people_words(repair.people, t))
        else:
            own = t("{time} as a job of its own", time=alone)
        found = t(
            "{task} the {title}; the visit then ends after {time} ({own}).",
            task=row.task.replace("-", " "),
            title=row.title,
            time=clock(row.finish_s),
            own=own,
        )
    last = row.n == len(diagnosis.suspects)
    return found, t("see below.") if last else t("go on to check {n}.", n=row.n + 1)


def _suspect(diagnosis: Diagnosis, row: DiagnosisSuspect, width: int) -> list[str]:
    share = f"{row.likelihood:.0%}"
    lines = _wrapped(f"{row.n:>4}  {wording.sentence(row.title)}: {share} likely", width, "")
    if row.check.reach:
        lines += _wrapped(f"First ({clock(row.check.opening_s)}): {'; '.join(row.check.opens)}", width)
    if row.check.live:
        lines += _wrapped(live_caution(row), width)
    for step in row.check.steps:
        lines += _wrapped(f"Check ({clock(row.check.seconds)}): {step}", width)
    found, not_found = answers(diagnosis, row)
    for text in (f"Found: {found}", f"Not found: {not_found}"):
        lines += _wrapped(text, width, _INDENT, _INDENT + "  ")
    parts = [f"{part.quantity} × {part.title}" for part in row.repair.parts if part.kind != "consumable"]
    if parts:
        lines += _wrapped("Parts: " + ", ".join(parts), width, _INDENT, _INDENT + "  ")
    return lines
