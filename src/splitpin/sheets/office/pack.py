"""The job pack: the documents of one job as one, behind a cover that says what is in it and on which page."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from splitpin.sheets.press import wording
from splitpin.sheets.press.blocks import Fact
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.paper import Paper, Part, document
from splitpin.sheets.register import REGISTER
from splitpin.sheets.step_sheet.view import job_facts

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile
    from splitpin.records.plan import Plan


class Cover(NamedTuple):
    """What stands on the cover; `contents` are the names of the documents, each with the id of the part it is."""

    firm: str
    phone: str | None
    reference: str
    title: str
    tasks: tuple[str, ...]
    facts: tuple[Fact, ...]
    standing: str
    contents: tuple[tuple[str, str], ...]


def pack(
    parts: Mapping[str, Part], plan: Plan, job: JobFile, firm: FirmFile, *, paper: Paper = "A4", t: Words = ENGLISH
) -> str:
    """The documents, by their ids in the register, as one HTML text behind a cover; one alone goes without.

    Raises ValueError for a paper size that is neither A4 nor Letter.
    """
    every = list(parts.values())
    titles = {one.id: one.title for one in REGISTER}
    if len(parts) > 1:
        cover = Cover(
            firm=firm.firm.title,
            phone=firm.firm.phone,
            reference=plan.job,
            title=plan.title,
            tasks=plan.tasks,
            facts=job_facts(plan, job, t),
            standing=t(wording.STANDING),
            contents=tuple((t(titles[name]), f"part-{n}") for n, name in enumerate(parts, 2)),
        )
        every.insert(0, Part("office/pack.html.j2", f"{plan.job} – {plan.title}", {"cover": cover}, "office/pack.css"))
    return document(every, paper=paper, foot=plan.job, t=t)
