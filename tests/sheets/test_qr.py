"""QR codes can be read back."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest
from tests.sheets.every_page import JOBS, ROUND, loaded, pages, planned

from splitpin.sheets.press.pdf import NoPdf, pdf
from splitpin.sheets.press.qr import qr_svg

DPI = 200  # a plain office scanner; a module of the longest number is then above two dots
reader = pytest.mark.skipif(shutil.which("zbarimg") is None, reason="the reader of bar codes is not installed")


def test_a_code_is_inline_and_always_the_same() -> None:
    svg = qr_svg("heater-main-board")
    assert svg.startswith("<svg") and 'class="qr"' in svg and "viewBox" in svg
    assert qr_svg("heater-main-board") == svg != qr_svg("heater-fan")


@reader
def test_a_reader_reads_the_part_number(tmp_path: Path) -> None:
    import segno

    file = tmp_path / "code.png"
    segno.make("heater-main-board", error="m", micro=False, boost_error=False).save(str(file), scale=5)
    read = subprocess.run(["zbarimg", "-q", "--raw", file], capture_output=True, text=True, check=True)
    assert read.stdout.strip() == "heater-main-board"


@reader
@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="poppler-utils is not installed")
@pytest.mark.parametrize("name", ["pick list", "load"])
def test_every_code_of_a_printed_page_reads_as_the_number_beside_it(name: str, tmp_path: Path) -> None:
    one = loaded(ROUND) if name == "load" else planned(JOBS / "heater-annual-service.toml")
    html = pages(one)[name]
    printed = re.findall(r'</svg><span class="aside">([^<]+)</span>', html)
    assert len(printed) == html.count('class="qr"') > 3
    try:
        (tmp_path / "page.pdf").write_bytes(pdf(html))
    except NoPdf as reason:
        pytest.skip(str(reason))
    subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", "-png", "page.pdf", "page"], cwd=tmp_path, check=True)
    pictures = sorted(tmp_path.glob("page*.png"))
    command = ["zbarimg", "-q", "--raw", "-S*.disable", "-Sqrcode.enable", *pictures]
    read = subprocess.run(command, capture_output=True, text=True, check=False)  # a page without a code ends it with 4
    assert sorted(read.stdout.split()) == sorted(printed)
