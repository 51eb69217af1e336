"""The quote on paper, for the customer: what the firm alone should know of its risk is not on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin.sheets.office.quote_view import quote_view
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.paper import Paper, Part, document

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.job import JobFile
    from splitpin.records.quote import Quote


def quote_page(quote: Quote, firm: FirmFile, job: JobFile, *, paper: Paper = "A4", t: Words = ENGLISH) -> str:
    """The quote as one HTML text that loads nothing from anywhere; same input, same text.

    `firm` and `job` are those of the quote; they add the telephone number and the site. Raises ValueError for a paper
    size that is neither A4 nor Letter.
    """
    return document([quote_part(quote, firm, job, t)], paper=paper, foot=quote.job, t=t)


def quote_part(quote: Quote, firm: FirmFile, job: JobFile, t: Words = ENGLISH) -> Part:
    """The quote as part of a document."""
    site = tuple(line for line in (job.site.name, job.site.address) if line)
    shown = {"quote": quote_view(quote, t), "site": site, "phone": firm.firm.phone or ""}
    return Part(
        "office/quote.html.j2", t("Quote {job} – {title}", job=quote.job, title=quote.title), shown, "office/quote.css"
    )
