"""Every document there is: what it is made from, on which pages and files, and what of it a terminal shows.

A new document is registered here, and from that day the tests go through it: every language, hostile text, the rules of
accessibility, the width of a phone, the browser's print against the PDF, the width of a terminal.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from splitpin.sheets.office.diagnosis import diagnosis_document
from splitpin.sheets.office.quote import quote_document
from splitpin.sheets.pocket_sheet.pocket import pocket_sheet
from splitpin.sheets.press.blocks import Document
from splitpin.sheets.press.language import LANGUAGES, Language, Words
from splitpin.sheets.press.page import part as part_of
from splitpin.sheets.press.paper import Paper, Part, document
from splitpin.sheets.press.terminal import text as text_of
from splitpin.sheets.service_record.record import record_part
from splitpin.sheets.step_sheet.sheet import step_part
from splitpin.sheets.step_sheet.terminal import plan_text
from splitpin.sheets.stock.load import load_document
from splitpin.sheets.stock.pick_list import pick_document

if TYPE_CHECKING:
    from splitpin.records.actual import Actual
    from splitpin.records.diagnosis import Diagnosis
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile
    from splitpin.records.plan import Plan
    from splitpin.records.quote import Quote
    from splitpin.records.supply import PickList, RoundLoad

Ending = Literal["html", "pdf"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What there is to tell, of a job or of a round; what is None is told by no document."""

    firm: FirmFile
    job: JobFile | None = None
    plan: Plan | None = None
    diagnosis: Diagnosis | None = None
    picks: PickList | None = None
    quote: Quote | None = None
    load: RoundLoad | None = None
    actual: Actual | None = None

    @property
    def reference(self) -> str:
        """That of the job or of the round."""
        return self.load.round if self.load else self.plan.job if self.plan else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Registered:
    """A document. Its functions give None where what is known has no such document.

    `part` gives it as part of a page, `alone` where it is a page of another make; `told` is what a terminal shows.
    """

    id: str
    title: str
    part: Callable[[Known, Words], Part | None] | None = None
    alone: Callable[[Known, Words], str | None] | None = None
    told: Callable[[Known, Words], str | None] | None = None
    languages: tuple[Language, ...] = LANGUAGES
    terminal_languages: tuple[Language, ...] = LANGUAGES
    endings: tuple[Ending, ...] = ("html", "pdf")
    in_pack: bool = False

    def page(self, known: Known, t: Words, *, paper: Paper = "A4") -> str | None:
        """The document as a page of its own. Raises ValueError for a paper size that is neither A4 nor Letter."""
        if self.alone is not None:
            return self.alone(known, t)
        made = self.part(known, t) if self.part else None
        return None if made is None else document([made], paper=paper, foot=known.reference, t=t)


def _of_blocks(
    id: str, title: str, told: Callable[[Known, Words], Document | None], *, in_pack: bool = False
) -> Registered:
    """A document of blocks: page and terminal tell the same."""

    def part(known: Known, t: Words) -> Part | None:
        found = told(known, t)
        return None if found is None else part_of(found, t)

    def text(known: Known, t: Words) -> str | None:
        found = told(known, t)
        return None if found is None else text_of(found)

    return Registered(id=id, title=title, part=part, told=text, in_pack=in_pack)


def _diagnosis(known: Known, t: Words) -> Document | None:
    if known.diagnosis is None or known.job is None:
        return None
    return diagnosis_document(known.diagnosis, known.job, known.firm, t)


def _pick_list(known: Known, t: Words) -> Document | None:
    return None if known.picks is None else pick_document(known.picks, known.firm, t)


def _load(known: Known, t: Words) -> Document | None:
    return None if known.load is None else load_document(known.load, known.firm, t)


def _quote(known: Known, t: Words) -> Document | None:
    if known.quote is None or known.job is None:
        return None
    return quote_document(known.quote, known.firm, known.job, t)


def _step_sheet(known: Known, t: Words) -> Part | None:
    """None too where nothing can be planned and a diagnosis says so already."""
    plan, job = known.plan, known.job
    if plan is None or job is None or plan.stops or not (plan.steps or known.diagnosis is None):
        return None
    return step_part(plan, job, known.firm, t)


def _stop_page(known: Known, t: Words) -> Part | None:
    plan, job = known.plan, known.job
    return step_part(plan, job, known.firm, t) if plan and job and plan.stops else None


def _pocket_sheet(known: Known, t: Words) -> str | None:
    plan, job = known.plan, known.job
    return pocket_sheet(plan, job, known.firm, t) if plan and job and plan.steps else None


def _record(known: Known, t: Words) -> Part | None:
    plan, job, actual = known.plan, known.job, known.actual
    return record_part(actual, plan, job, known.firm, t) if plan and job and actual else None


def _plan(known: Known, _: Words) -> str | None:
    return plan_text(known.plan) if known.plan and not known.plan.stops else None


REGISTER = (  # in the order in which a pack has them
    Registered(id="stop page", title="Stop page", part=_stop_page, in_pack=True),
    _of_blocks("diagnosis card", "Diagnosis card", _diagnosis, in_pack=True),
    Registered(
        id="step sheet",
        title="Step sheet",
        part=_step_sheet,
        told=_plan,
        terminal_languages=("en",),
        in_pack=True,
    ),
    _of_blocks("pick list", "Pick list", _pick_list, in_pack=True),
    _of_blocks("quote", "Quote", _quote, in_pack=True),
    _of_blocks("load", "Load", _load),
    Registered(id="pocket sheet", title="Pocket sheet", alone=_pocket_sheet, endings=("html",)),
    Registered(id="service record", title="Service record", part=_record),
)


def packed(known: Known, t: Words) -> dict[str, Part]:
    """The documents of a pack by their ids, in the order in which they are wanted; one at least."""
    made = {one.id: one.part(known, t) for one in REGISTER if one.in_pack and one.part is not None}
    return {name: part for name, part in made.items() if part is not None}
