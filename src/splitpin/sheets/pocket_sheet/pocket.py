"""The pocket sheet: one file for a phone without a signal, to tick, to time and to take readings down.

What is entered stays on the phone until it is exported as the visit that `splitpin record` takes.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from splitpin.records.plan import Plan, PlanProof, plan_json
from splitpin.sheets.press import wording
from splitpin.sheets.press.blocks import Item
from splitpin.sheets.press.language import Words
from splitpin.sheets.press.paper import environment
from splitpin.sheets.step_sheet.view import StepRow, StepSheet, view

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile

PHOTO_KB = 400  # a phone's store holds about 5 MB of text: ten photos beside the words; our own choice

# What the page says by itself, by the names that its script uses.
SAID = {
    "all_done": "All steps done",
    "clear_sure": "Forget everything entered on this page?",
    "delete_photo": "Delete {name}",
    "done": "Done: {n}",
    "exported": "Exported as {name}",
    "failed": "FAIL",
    "full": "NOT STORED: this phone's store is full. Your words are on screen only. Export now, or delete photos.",
    "go_on": "Go on",
    "import_bad": "{name} is not a visit that this page exported",
    "import_other": "{name} belongs to job {job}, not to this one",
    "imported": "Imported {name}",
    "number": "Not a number",
    "over": "Wait over: step {n}",
    "passed": "Pass",
    "photo_bad": "{name} is not a photo that this browser can read",
    "photo_full": "No room for {name}: it was not kept. Export, then delete older photos.",
    "photo_large": "{name} is still over {size} kB when made smaller: not kept",
    "progress": "{done} of {all} steps done",
    "running": "{time} left",
    "start_wait": "Start timer: {time}",
    "ticked": "Step {n} done",
    "undone": "Undone",
    "unjudged": "Written down; no limit to judge it by",
    "unticked": "Step {n} open again",
    "wait": "Waiting",
}


class PocketReading(NamedTuple):
    """A reading with its limit, as the page shows and judges it; `key` is unique on the page."""

    key: str
    proof: str
    id: str
    title: str
    unit: str
    shown_unit: str
    min: float | None
    max: float | None
    yes_no: bool
    limit: str
    source: str
    failure: str


class PocketRow(NamedTuple):
    """A step: the line of the step sheet, its wait in seconds, and the readings that are taken at it."""

    n: int
    phase: str
    line: StepRow
    wait_s: int
    readings: tuple[PocketReading, ...]


class PocketGroup(NamedTuple):
    """Steps under one heading."""

    heading: str
    rows: list[PocketRow]


def pocket_sheet(plan: Plan, job: JobFile, firm: FirmFile, t: Words) -> str:
    """The pocket sheet of `plan` as one HTML text that loads nothing from anywhere; same input, same text."""
    sheet = view(plan, job, firm, t)
    rows = list(_rows(plan, sheet, t))
    page = environment().get_template("pocket_sheet/pocket.html.j2")
    text = page.render(
        t=t,
        sheet=sheet,
        before=list(_before(plan, sheet, t)),
        groups=_groups(rows),
        rows=rows,
        parts=_parts(plan),
        photo_kb=PHOTO_KB,
        data=_data(plan, rows, t),
    )
    return wording.visible(text)


def _rows(plan: Plan, sheet: StepSheet, t: Words) -> Iterator[PocketRow]:
    last_of = {step.proof: step.n for step in plan.steps if step.proof is not None}
    for step, line in zip(plan.steps, sheet.steps, strict=True):
        proofs = [proof for proof in plan.proofs if last_of.get(proof.id) == step.n]
        readings = tuple(reading for proof in proofs for reading in _readings(proof, t))
        yield PocketRow(step.n, step.phase, line, step.wait_s, readings)


def _readings(proof: PlanProof, t: Words) -> Iterator[PocketReading]:
    for reading in proof.readings:
        yield PocketReading(
            key=f"{proof.id}--{reading.id}",
            proof=proof.id,
            id=reading.id,
            title=wording.sentence(reading.title),
            unit=reading.unit,
            shown_unit=wording.unit_words(reading),
            min=reading.min,
            max=reading.max,
            yes_no=reading.unit == wording.YES_NO,
            limit=wording.limit_words(reading, t),
            source=wording.limit_source(reading),
            failure=proof.failure,
        )


def _groups(rows: list[PocketRow]) -> list[PocketGroup]:
    groups: list[PocketGroup] = []
    for row in rows:
        if row.line.heading or not groups:
            groups.append(PocketGroup(row.line.heading or "", []))
        groups[-1].rows.append(row)
    return groups


def _before(plan: Plan, sheet: StepSheet, t: Words) -> Iterator[tuple[str, tuple[Item, ...]]]:
    yield t("What must hold"), sheet.conditions
    yield t("Who may do it"), tuple(Item(title=row.person) for row in plan.licences)
    yield t("Tools"), sheet.tools
    yield t("Parts used"), (*sheet.certain, *sheet.uncertain, *sheet.consumables)


def _parts(plan: Plan) -> list[dict[str, Any]]:
    """Parts with how many are taken as used until the engineer says otherwise: none of those an inspection decides."""
    return [
        {"part": part.part, "title": part.title, "quantity": part.quantity if part.certain else 0}
        for part in plan.parts
    ]


def _data(plan: Plan, rows: list[PocketRow], t: Words) -> dict[str, Any]:
    print_ = hashlib.sha256(plan_json(plan).encode()).hexdigest()[:16]  # another plan, another store
    return {
        "job": plan.job,
        "assembly": plan.assembly,
        "print": print_,
        "photo_kb": PHOTO_KB,
        "words": {name: t(english) for name, english in SAID.items()},
        "steps": [{"n": row.n, "phase": row.phase, "wait_s": row.wait_s} for row in rows],
        "readings": [
            {name: getattr(reading, name) for name in ("key", "proof", "id", "title", "unit", "min", "max")}
            for row in rows
            for reading in row.readings
        ],
        "parts": [{"part": part["part"], "quantity": part["quantity"]} for part in _parts(plan)],
    }
