"""No document breaks the rules that axe-core checks by itself (WCAG 2.2 A and AA, and its good practices)."""

from pathlib import Path
from typing import Any

import pytest
from tests.examples import example

from splitpin.sheets.pocket_sheet.pocket import pocket_sheet
from splitpin.sheets.press.language import LANGUAGES, Words
from splitpin.sheets.step_sheet.sheet import step_sheet

AXE = (Path(__file__).parent / "axe" / "axe.min.js").read_text(encoding="utf-8")
REFUSED = "heat-pump-compressor"


def documents(job: str) -> dict[str, str]:
    plan, visit = example(job)
    pages = {"step sheet": step_sheet(plan, visit.job, visit.firm)}
    pages |= {f"pocket {name}": pocket_sheet(plan, visit.job, visit.firm, Words(name)) for name in LANGUAGES}
    return pages


@pytest.mark.parametrize("job", ["heater-annual-service", "circulator-complete", REFUSED])
def test_axe_finds_nothing(job: str, browser: Any, tmp_path: Path) -> None:
    page = browser.new_context(bypass_csp=True).new_page()
    for name, html in documents(job).items():
        path = tmp_path / "page.html"
        path.write_text(html, encoding="utf-8")
        page.goto(path.as_uri())
        page.evaluate(AXE)
        found = page.evaluate("() => axe.run()")
        assert len(found["passes"]) > 5
        broken = [(rule["id"], rule["nodes"][0]["html"][:200]) for rule in found["violations"]]
        assert broken == [], name
