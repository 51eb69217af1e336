"""QR codes can be read back."""

import shutil
import subprocess
from pathlib import Path

import pytest

from splitpin.sheets.qr import qr_svg


def test_a_code_is_inline_and_always_the_same() -> None:
    svg = qr_svg("heater-main-board")
    assert svg.startswith("<svg") and 'class="qr"' in svg and "viewBox" in svg
    assert qr_svg("heater-main-board") == svg != qr_svg("heater-fan")


@pytest.mark.skipif(shutil.which("zbarimg") is None, reason="the reader of bar codes is not installed")
def test_a_reader_reads_the_part_number(tmp_path: Path) -> None:
    import segno

    file = tmp_path / "code.png"
    segno.make("heater-main-board", error="m", micro=False, boost_error=False).save(str(file), scale=5)
    read = subprocess.run(["zbarimg", "-q", "--raw", file], capture_output=True, text=True, check=True)
    assert read.stdout.strip() == "heater-main-board"
