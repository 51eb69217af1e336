"""The stop page: one page in place of a step sheet where a job speaks of an emergency."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.records.plan import Plan, PlanStop
from splitpin.sheets.press import wording
from splitpin.sheets.press.language import ENGLISH, Words

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile

HEADING = "Stop: no work is planned"
ASK = "Ask first: no work is planned"
CALLER = "Tell the caller now, in this order:"
AT_A_YES = "At a yes, or where the caller is not sure, tell them now, in this order:"
FIRST = "The emergency service, the supplier and local law come first. Where they say otherwise, follow them."
AFTERWARDS = (
    "Write into the job who asked, how, when, and each answer ([asked]); with a no to every question it is planned."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StopBlock:
    """One emergency: what was said and where, what is done, whom to call, where the advice comes from."""

    title: str
    said: str
    caller: str
    do: tuple[str, ...]
    call: str
    origin: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StopPage:
    """Everything on the page, in the order in which it is printed."""

    firm: str
    phone: str | None
    reference: str
    title: str
    heading: str
    blocks: tuple[StopBlock, ...]
    first: str
    facts: tuple[tuple[str, str], ...]
    afterwards: str


def stop_view(plan: Plan, job: JobFile, firm: FirmFile, t: Words = ENGLISH) -> StopPage:
    """The page of a plan that has `stops`."""
    site = job.site
    facts = (
        (t("Report"), job.job.report),
        (t("Site"), ", ".join(line for line in (site.name, site.address) if line)),
        (t("Contact"), site.contact),
        (t("Plant"), wording.sentence(plan.assembly_title)),
        (t("Ruled out"), plan.ruled_out),
    )
    return StopPage(
        firm=firm.firm.title,
        phone=firm.firm.phone,
        reference=plan.job,
        title=plan.title,
        heading=t(heading(plan)),
        blocks=tuple(stop_block(stop, t) for stop in plan.stops),
        first=t(FIRST),
        facts=tuple((label, text) for label, text in facts if text),
        afterwards=t(AFTERWARDS),
    )


def heading(plan: Plan) -> str:
    """What the page is headed: an emergency, or questions to ask."""
    return HEADING if any(stop.words for stop in plan.stops) else ASK


def stop_block(stop: PlanStop, t: Words = ENGLISH) -> StopBlock:
    """One emergency in words, for paper and terminal alike."""
    return StopBlock(
        title=stop.title,
        said=t("{where} says “{words}”.", where=wording.sentence(stop.where), words=stop.words)
        if stop.words
        else stop.question,
        caller=t(CALLER if stop.words else AT_A_YES),
        do=stop.do,
        call=wording.sentence(stop.call) + ".",
        origin=stop.origin,
    )
