"""A document as PDF: what stands in the file, and what is done to write it."""

import subprocess
import sys

import pytest

from splitpin.sheets.pdf import pdf

PAGE = "<!DOCTYPE html><html lang='en'><head><title>One page</title></head><body><p>Close the valve.</p></body></html>"
STARTED = """
import sys
started = []
sys.addaudithook(lambda event, given: started.append(given) if event in {"subprocess.Popen", "os.system"} else None)
from splitpin.sheets.pdf import pdf
pdf(sys.argv[1])
sys.exit(str(started) if started else 0)
"""

pytest.importorskip("weasyprint", reason="the extra pdf is not installed")


def test_same_text_gives_the_same_bytes() -> None:
    assert pdf(PAGE) == pdf(PAGE)


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere a library's file name is sought by its short name")
def test_no_other_program_is_started_to_find_libraries() -> None:
    done = subprocess.run([sys.executable, "-c", STARTED, PAGE], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
