"""Every document in a real browser: accessible, laid out at every width, and the same on paper as the PDF."""

import re
import shutil
import struct
import subprocess
import zlib
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from tests.browser.test_accessibility import AXE
from tests.sheets.every_page import EMERGENCY, JOBS, ROUND, example, pages, planned
from tests.sheets.test_hostile import NASTY, on_a_round, written

from splitpin.sheets.press.language import Words
from splitpin.sheets.press.pdf import pdf
from splitpin.sheets.register import REGISTER

ON_PAPER = {entry.id for entry in REGISTER if "pdf" in entry.endings}
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 900}
PARTS = tuple(entry.id for entry in REGISTER if entry.in_pack and entry.id != "stop page")
EXAMPLES = {
    path.stem: path
    for path in (
        EMERGENCY.parent / "heater-goes-out.toml",
        JOBS / "heat-pump-compressor.toml",
        JOBS / "circulator-head-drain-down.toml",
        EMERGENCY,
        ROUND,
    )
}
pytestmark = pytest.mark.filterwarnings("ignore::ResourceWarning")

poppler = pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils is not installed")


@cache
def made(job: str, language: str) -> dict[str, str]:
    return pages(example(EXAMPLES[job]), Words(language))


def in_whole(job: str, language: str) -> dict[str, str]:
    """Every document once: the pack stands for the parts that it is made of."""
    whole = made(job, language)
    return {name: html for name, html in whole.items() if "pack" not in whole or name not in PARTS}


def shown(browser: Any, folder: Path, html: str, size: dict[str, int]) -> Any:
    path = folder / "page.html"
    path.write_text(html, encoding="utf-8")
    page = browser.new_context(viewport=size, bypass_csp=True).new_page()
    page.goto(path.as_uri())
    return page


@pytest.mark.parametrize("job", EXAMPLES)
def test_axe_finds_nothing_on_any_document(job: str, browser: Any, tmp_path: Path) -> None:
    for name, html in in_whole(job, "de").items():
        page = shown(browser, tmp_path, html, DESK)
        page.evaluate(AXE)
        found = page.evaluate("() => axe.run()")
        assert len(found["passes"]) > 5
        assert [(rule["id"], rule["nodes"][0]["html"][:200]) for rule in found["violations"]] == [], name
        page.context.close()


WIDE = """() => [...document.querySelectorAll('body *')]
    .filter(one => one.getBoundingClientRect().right > innerWidth + 1)
    .map(one => one.outerHTML.slice(0, 120))"""


def assert_fits(page: Any, name: str) -> None:
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), (name, page.evaluate(WIDE)[:4])
    assert page.evaluate("innerWidth") == page.viewport_size["width"], f"{name}: the screen was widened for it"


@pytest.mark.parametrize("language", ["en", "de", "es"])
@pytest.mark.parametrize("job", EXAMPLES)
def test_no_document_is_wider_than_its_screen(job: str, language: str, browser: Any, tmp_path: Path) -> None:
    for name, html in in_whole(job, language).items():
        for size in (PHONE, DESK) if language == "de" else (PHONE,):
            page = shown(browser, tmp_path, html, size)
            assert_fits(page, name)
            assert grey_levels(page.screenshot(clip={"x": 0, "y": 0, **size})) > 8, f"{name}: nothing is drawn"
            page.context.close()


def grey_levels(png: bytes) -> int:
    """How many byte values occur in the rows of a picture: one or two in an empty one."""
    data, at = b"", 8
    while at < len(png):
        (length,) = struct.unpack(">I", png[at : at + 4])
        if png[at + 4 : at + 8] == b"IDAT":
            data += png[at + 8 : at + 8 + length]
        at += length + 12
    return len(set(zlib.decompress(data)))


@pytest.mark.parametrize("kind", ["long", "script", "marks"])
def test_hostile_text_stays_within_a_phone_and_runs_nothing(kind: str, browser: Any, tmp_path: Path) -> None:
    text = NASTY[kind][:2_000]
    made = pages(written(tmp_path / "job", text), text=text) | pages(on_a_round(tmp_path / "round", text))
    for name, html in made.items():
        page = shown(browser, tmp_path, html, PHONE)
        said: list[str] = []
        page.on("dialog", lambda dialog, said=said: (said.append(dialog.message), dialog.dismiss()))
        page.reload()
        assert_fits(page, name)
        assert said == [] and page.title() != "", name
        page.context.close()


def text_of(path: Path) -> str:
    return subprocess.run(["pdftotext", path, "-"], check=True, capture_output=True, text=True).stdout


def missing(from_: str, in_: str) -> list[str]:
    """The words of one text that the other lacks, wherever the other breaks its lines."""
    words, whole = set(in_.split()), "".join(in_.split())
    return sorted({word for word in from_.split() if word not in words and word not in whole})


def as_written(text: str) -> str:
    """Without page numbers, hyphens and dashes (pdftotext takes those at line ends out), with ligatures as letters."""
    plain = re.sub(r"(Page|Seite) \d+ (of|von) \d+", "", text)
    return plain.replace("ﬁ", "fi").replace("ﬂ", "fl").replace("ﬀ", "ff").translate(dict.fromkeys(map(ord, "-–\u2060")))


@poppler
@pytest.mark.parametrize("job", EXAMPLES)
def test_the_browser_prints_the_words_of_the_pdf(job: str, browser: Any, tmp_path: Path) -> None:
    for name, html in made(job, "de").items():
        if name not in ON_PAPER:  # the pack has only parts that are seen alone
            continue
        page = shown(browser, tmp_path, html, DESK)
        page.pdf(path=tmp_path / "browser.pdf", prefer_css_page_size=True)
        page.context.close()
        (tmp_path / "own.pdf").write_bytes(pdf(html))
        browsers, own = as_written(text_of(tmp_path / "browser.pdf")), as_written(text_of(tmp_path / "own.pdf"))
        assert len(own.split()) > 60
        assert (missing(own, browsers), missing(browsers, own)) == ([], []), name


@poppler
@pytest.mark.parametrize(("paper", "size"), [("A4", (595.3, 841.9)), ("Letter", (612.0, 792.0))])
def test_a_pdf_is_tagged_has_its_paper_and_the_same_bytes_again(paper: Any, size: Any, tmp_path: Path) -> None:
    html = pages(planned(JOBS / "circulator-complete.toml"), Words("es"), paper=paper)["pack"]
    first = pdf(html)
    assert pdf(html) == first
    path = tmp_path / "own.pdf"
    path.write_bytes(first)
    told = subprocess.run(["pdfinfo", path], check=True, capture_output=True, text=True).stdout
    assert re.search(r"^Tagged: +yes$", told, re.M) and re.search(r"^Title: +\S", told, re.M)
    found = re.search(r"^Page size: +([\d.]+) x ([\d.]+) pts", told, re.M)
    assert found is not None
    assert (float(found[1]), float(found[2])) == pytest.approx(size, abs=0.5)
