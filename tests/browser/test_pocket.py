"""The pocket sheet in a real browser: tick, reload, time a wait, fail a reading, export, import, a full store."""

import json
import struct
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.examples import example

from splitpin.records.actual import Actual
from splitpin.records.plan import Plan
from splitpin.sheets.pocket_sheet.pocket import pocket_sheet
from splitpin.sheets.press.language import Words


@pytest.fixture(scope="module")
def service(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Plan]:
    plan, visit = example("heater-annual-service")
    path = tmp_path_factory.mktemp("pocket") / "pocket.html"
    path.write_text(pocket_sheet(plan, visit.job, visit.firm, Words("en")), encoding="utf-8")
    return path, plan


class Phone:
    """The page on a phone of its own, with everything that the browser complained about."""

    def __init__(self, browser: Any, path: Path) -> None:
        self.context = browser.new_context(viewport={"width": 390, "height": 844}, accept_downloads=True)
        self.page = self.context.new_page()
        self.complaints: list[str] = []
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("console", lambda line: self.complaints.append(line.text) if line.type == "error" else None)
        self.page.on("dialog", lambda dialog: dialog.accept())
        self.page.clock.install(time="2026-11-25T09:00:00")
        self.page.goto(path.as_uri())

    def done(self, times: int = 1) -> None:
        for _ in range(times):
            self.page.click("#done")

    def said(self, words: str) -> None:
        """Wait until the page says so."""
        self.page.locator("#say", has_text=words).wait_for()

    def note(self, step: int, words: str) -> None:
        self.page.click(f"#more-{step} summary")
        self.page.fill(f"#note-{step}", words)

    def text(self, selector: str) -> str:
        return str(self.page.inner_text(selector))

    def visit(self, folder: Path) -> dict[str, Any]:
        with self.page.expect_download() as download:
            self.page.click("#export")
        path = folder / "visit.json"
        download.value.save_as(path)
        exported: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
        return exported


@pytest.fixture
def phone(browser: Any, service: tuple[Path, Plan]) -> Iterator[Phone]:
    phone = Phone(browser, service[0])
    yield phone
    phone.context.close()
    assert phone.complaints == []


def judged(plan: Plan) -> tuple[str, str, float]:
    """A reading with an upper limit: its proof, its id, the limit."""
    return next((p.id, r.id, r.max) for p in plan.proofs for r in p.readings if r.max is not None and r.min is None)


def test_ticks_survive_a_reload_and_the_next_step_is_large(phone: Phone, service: tuple[Path, Plan]) -> None:
    phone.done(3)
    phone.page.fill("#note-4", "valve stiff")
    phone.page.reload()
    assert phone.text("#progress-words") == f"3 of {len(service[1].steps)} steps done"
    assert phone.page.get_attribute("#step-4", "aria-current") == "step"
    assert phone.page.input_value("#note-4") == "valve stiff"
    size = "element => parseFloat(getComputedStyle(element).fontSize)"
    large, small = (phone.page.eval_on_selector(f"#step-{n} .text", size) for n in (4, 5))
    assert large > 1.3 * small


def test_undo_opens_the_last_step_and_keeps_what_was_written(phone: Phone, service: tuple[Path, Plan]) -> None:
    phone.done(2)
    phone.note(1, "as found")
    phone.page.click("#undo")
    assert phone.text("#progress-words") == f"1 of {len(service[1].steps)} steps done"
    assert phone.page.input_value("#note-1") == "as found"


def test_a_wait_runs_on_by_the_wall_clock_while_the_page_is_shut(phone: Phone, service: tuple[Path, Plan]) -> None:
    step = next(step for step in service[1].steps if step.wait_s)
    while phone.page.get_attribute(f"#step-{step.n}", "aria-current") != "step":
        phone.done()
    phone.page.click(f"#timer-{step.n}")
    phone.page.clock.run_for(60_000)
    minutes = (step.wait_s - 60) // 60
    assert phone.text(f"#timer-{step.n}").startswith(f"{minutes}:")
    phone.page.reload()
    assert phone.text(f"#timer-{step.n}").endswith("left")
    phone.page.clock.run_for(step.wait_s * 1000)
    assert phone.text(f"#timer-{step.n}") == f"Wait over: step {step.n}"


def test_a_reading_over_its_limit_says_stop_at_once(phone: Phone, service: tuple[Path, Plan]) -> None:
    proof, reading, limit = judged(service[1])
    key = f"{proof}--{reading}"
    failure = next(row.failure for row in service[1].proofs if row.id == proof)
    phone.page.fill(f"#value-{key}", str(limit))
    assert phone.text(f"#told-{key}") == "Pass"
    phone.page.fill(f"#value-{key}", str(limit * 2).replace(".", ","))
    assert phone.text(f"#told-{key}") == "FAIL"
    assert phone.text(f"#stop-{key}") == f"STOP: {failure}"
    phone.page.fill(f"#value-{key}", "much")
    assert phone.text(f"#told-{key}") == "Not a number"
    assert not phone.page.is_visible(f"#stop-{key}")


def test_the_exported_visit_is_one_that_can_be_recorded(
    phone: Phone, service: tuple[Path, Plan], tmp_path: Path
) -> None:
    proof, reading, limit = judged(service[1])
    phone.done()
    phone.page.clock.run_for(120_000)
    phone.done()
    phone.page.click("#wait")
    phone.page.clock.run_for(600_000)
    phone.done()
    phone.page.fill(f"#value-{proof}--{reading}", str(limit * 2))
    phone.page.fill("#remarks", 'said "fine" <b>')
    phone.page.fill("#engineer", "A. Fitter")
    visit = Actual.model_validate_json(json.dumps(phone.visit(tmp_path)))
    assert visit.job == service[1].job and str(visit.date) == "2026-11-25"
    assert visit.phases["make-safe"] == pytest.approx(2, abs=0.1)
    assert visit.waiting_min == pytest.approx(10, abs=0.1)
    assert [step.n for step in visit.steps if step.done] == [1, 2, 3]
    assert [(r.proof, r.reading, r.value, r.result) for r in visit.readings] == [(proof, reading, limit * 2, "fail")]
    assert visit.notes == 'said "fine" <b>'
    assert [(row.role, row.name) for row in visit.signatures] == [("engineer", "A. Fitter")]
    certain = {part.part: part.quantity for part in service[1].parts if part.certain}
    assert {part.part: part.quantity for part in visit.parts} == certain


def test_an_exported_visit_comes_back_on_another_phone(
    browser: Any, service: tuple[Path, Plan], tmp_path: Path
) -> None:
    one, other = Phone(browser, service[0]), Phone(browser, service[0])
    one.done(5)
    one.note(2, "second supply: solar")
    one.page.fill("#customer", "The owner")
    first = one.visit(tmp_path)
    other.page.set_input_files("#import", tmp_path / "visit.json")
    other.said("Imported")
    assert other.visit(tmp_path) == first
    (tmp_path / "other.json").write_text(json.dumps({**first, "job": "X"}), encoding="utf-8")
    other.page.set_input_files("#import", tmp_path / "other.json")
    other.said("belongs to job X")
    (tmp_path / "bad.json").write_text("{", encoding="utf-8")
    other.page.set_input_files("#import", tmp_path / "bad.json")
    other.said("bad.json is not a visit")
    assert other.visit(tmp_path) == first
    assert one.complaints == other.complaints == []
    one.context.close()
    other.context.close()


def test_a_full_store_says_so_and_loses_no_text(phone: Phone, tmp_path: Path) -> None:
    fill = (
        "() => { let s = 'x'.repeat(100000); try { for (let i = 0; ; i++) localStorage.setItem('f' + i, s); } catch {} "
    )
    phone.page.evaluate(fill + "s = 'x'; try { for (let i = 0; ; i++) localStorage.setItem('g' + i, s); } catch {} }")
    phone.page.fill("#remarks", "long remark " * 50)
    assert phone.text("#alarm").startswith("NOT STORED")
    assert phone.visit(tmp_path)["notes"] == ("long remark " * 50).strip()
    phone.page.evaluate(
        "() => { for (const key of Object.keys(localStorage)) if (/^[fg]/.test(key)) localStorage.removeItem(key); }"
    )
    phone.page.fill("#remarks", "short")
    assert not phone.page.is_visible("#alarm")
    phone.page.reload()
    assert phone.page.input_value("#remarks") == "short"


def picture(path: Path) -> Path:
    """A grey PNG of 3000 x 2000 pixels."""
    rows = b"".join(b"\0" + bytes([(row * 7) % 256]) * 3000 for row in range(2000))

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", 3000, 2000, 8, 0, 0, 0, 0)
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")
    )
    return path


def test_a_photo_is_made_smaller_kept_and_exported(phone: Phone, tmp_path: Path) -> None:
    phone.page.set_input_files("#photo", picture(tmp_path / "burner.png"))
    phone.page.wait_for_selector("#photos img")
    phone.page.reload()
    assert phone.page.get_attribute("#photos img", "alt") == "burner.png"
    visit = Actual.model_validate_json(json.dumps(phone.visit(tmp_path)))
    assert visit.photos[0].data.startswith("data:image/jpeg;base64,")
    assert len(visit.photos[0].data) <= 400 * 1024
    (tmp_path / "no.png").write_bytes(b"no picture")
    phone.page.set_input_files("#photo", tmp_path / "no.png")
    phone.said("no.png is not a photo")
    phone.page.click("#photos button")
    assert phone.page.locator("#photos img").count() == 0


def test_the_keyboard_alone_is_enough(phone: Phone, service: tuple[Path, Plan]) -> None:
    phone.page.focus("#done")
    phone.page.keyboard.press("Enter")
    assert phone.page.evaluate("document.activeElement.id") == "step-2"
    phone.page.keyboard.press("Tab")
    assert phone.page.evaluate("document.activeElement.id") == "tick-2"
    phone.page.keyboard.press("Space")
    assert phone.text("#progress-words").startswith("2 of ")
    assert phone.text("#say") == "Step 2 done"


def test_starting_again_forgets_everything(phone: Phone) -> None:
    phone.done(2)
    phone.page.fill("#remarks", "x")
    phone.page.click("#clear")
    phone.page.reload()
    assert phone.text("#progress-words").startswith("0 of ")
    assert phone.page.input_value("#remarks") == ""
