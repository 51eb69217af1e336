"""The golden documents: `python -m tests.sheets.golden` writes them anew, to be read as a diff before they are kept."""

from pathlib import Path

from tests.pricing.job import EVERYTHING, visit
from tests.sheets.circulator import FIRM, JOB, PLAN

from splitpin.sheets.office.quote_page import quote_page
from splitpin.sheets.office.quote_text import quote_text
from splitpin.sheets.step_sheet.sheet import step_sheet
from splitpin.sheets.step_sheet.terminal import plan_text

FOLDER = Path(__file__).resolve().parent / "golden"


def documents() -> dict[str, str]:
    """Every golden document by its file name, as it is made now."""
    return {
        "circulator-head.html": step_sheet(PLAN, JOB, FIRM),
        "circulator-head.txt": plan_text(PLAN) + "\n",
        "circulator-head-why.txt": plan_text(PLAN, why=True) + "\n",
        "quote.html": quote_page(EVERYTHING, visit().firm, visit().job).partition("</style>\n")[2],
        "quote.txt": quote_text(EVERYTHING) + "\n",
    }


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for name, text in documents().items():
        (FOLDER / name).write_text(text, encoding="utf-8", newline="\n")
