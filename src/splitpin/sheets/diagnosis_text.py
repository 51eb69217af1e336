"""A diagnosis as plain text for a terminal: the checks in their sequence, and what to do on each answer."""

from collections.abc import Iterator
from textwrap import wrap

from splitpin.records.diagnosis import Diagnosis, DiagnosisSuspect
from splitpin.sheets import wording
from splitpin.units import clock, counted

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


def summary(diagnosis: Diagnosis) -> Iterator[str]:
    """What the sequence is worth, in sentences."""
    proof = "proved best" if diagnosis.status == "proved" else f"at most {diagnosis.gap_s} s from best"
    yield (
        f"The fault is found after {clock(diagnosis.expected_find_s)} on average and cured after "
        f"{clock(diagnosis.expected_finish_s)}; sequence {proof}."
    )
    if diagnosis.comparison is not None:
        yield (
            f"Likeliest first would take {clock(diagnosis.comparison.likeliest_first_s)} to find it, "
            f"quickest check first {clock(diagnosis.comparison.cheapest_first_s)}."
        )
    if diagnosis.visits:
        yield f"Likelihoods rest on {counted(diagnosis.visits, 'recorded visit')} and on the catalogue."
    else:
        yield "Likelihoods are the catalogue's; no recorded visit says otherwise yet."


def answers(diagnosis: Diagnosis, row: DiagnosisSuspect) -> tuple[str, str]:
    """What to do when the check finds the fault, and when it does not."""
    repair = row.repair
    if repair.status == "impossible":
        found = f"Found: not ours to cure: {repair.reason or 'there is no plan'}. Make safe and hand on."
    else:
        people = "" if repair.people == 1 else f", {wording.people_words(repair.people)}"
        found = (
            f"Found: {row.task.replace('-', ' ')} the {row.title}; the visit then ends after "
            f"{clock(row.finish_s)} ({clock(repair.elapsed_s)} as a job of its own{people})."
        )
    last = row.n == len(diagnosis.suspects)
    return found, "Not found: see below." if last else f"Not found: go on to check {row.n + 1}."


def _suspect(diagnosis: Diagnosis, row: DiagnosisSuspect, width: int) -> list[str]:
    share = f"{row.likelihood:.0%}"
    lines = _wrapped(f"{row.n:>4}  {wording.sentence(row.title)}: {share} likely", width, "")
    if row.check.reach:
        lines += _wrapped(f"First ({clock(row.check.opening_s)}): {'; '.join(row.check.opens)}", width)
    for step in row.check.steps:
        lines += _wrapped(f"Check ({clock(row.check.seconds)}): {step}", width)
    for text in answers(diagnosis, row):
        lines += _wrapped(text, width, _INDENT, _INDENT + "  ")
    parts = [f"{part.quantity} × {part.title}" for part in row.repair.parts if part.kind != "consumable"]
    if parts:
        lines += _wrapped("Parts: " + ", ".join(parts), width, _INDENT, _INDENT + "  ")
    return lines
