"""The golden documents: `python -m tests.sheets.golden` writes them anew, to be read as a diff before they are kept."""

from pathlib import Path

from tests.pricing.job import EVERYTHING, visit
from tests.sheets.circulator import FIRM, JOB, PLAN

from splitpin.sheets.office.quote import quote_document
from splitpin.sheets.press.language import ENGLISH
from splitpin.sheets.press.page import page
from splitpin.sheets.press.terminal import text
from splitpin.sheets.step_sheet.sheet import step_sheet
from splitpin.sheets.step_sheet.terminal import plan_text

FOLDER = Path(__file__).resolve().parent / "golden"


def unstyled(html: str) -> str:
    """The page without its style sheet: how it looks is judged by eye and by the tests in a browser."""
    before, _, rest = html.partition("<style>\n")
    return before + rest.partition("</style>\n")[2]


def documents() -> dict[str, str]:
    """Every golden document by its file name, as it is made now."""
    quote = quote_document(EVERYTHING, visit().firm, visit().job)
    return {
        "circulator-head.html": unstyled(step_sheet(PLAN, JOB, FIRM)),
        "circulator-head.txt": plan_text(PLAN) + "\n",
        "circulator-head-why.txt": plan_text(PLAN, why=True) + "\n",
        "quote.html": unstyled(page(quote, paper="A4", t=ENGLISH)),
        "quote.txt": text(quote) + "\n",
    }


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for name, told in documents().items():
        (FOLDER / name).write_text(told, encoding="utf-8", newline="\n")
