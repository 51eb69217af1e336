"""The step sheet of the longest example job as whole processes: to HTML and to PDF. The least of several runs is told.

Our own aims are 300 ms to HTML and 2 s to PDF on a quiet machine. What
is asserted is processor time, that of programs it starts included, at half as much again: other work on the machine
slows a processor by so much. And what was written is looked at, for a quick empty sheet would be no gain.
"""

import re
import resource
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest

JOB = Path(__file__).resolve().parents[2] / "examples" / "skerrowdale" / "jobs" / "heater-annual-service.toml"
RUNS = 9
COMMAND = "from splitpin.cli.app import app; app()"
SHARED = 1.5  # what a processor that others use as well takes of one that is left alone, at most


def took(out: Path) -> tuple[float, float, int]:
    """Seconds by the clock and of the processor that one run takes, and the steps that it says it wrote."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    begun = time.perf_counter()
    told = subprocess.run(
        [sys.executable, "-c", COMMAND, "sheet", JOB, "--out", out], check=True, capture_output=True, text=True
    )
    wall = time.perf_counter() - begun
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    steps = re.search(r"(\d+) steps, proved", told.stdout)
    assert steps, told.stdout
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, int(steps[1])


def least(out: Path, aim_s: float) -> int:
    """Run it several times, tell the least, hold it to its aim; gives the number of steps."""
    took(out)
    runs = [took(out) for _ in range(RUNS)]
    wall, processor = min(run[0] for run in runs), min(run[1] for run in runs)
    print(f"\n{out.suffix}: {wall:.2f} s by the clock, {processor:.2f} s of the processor; aim {aim_s} s")
    assert processor < SHARED * aim_s
    return runs[0][2]


@pytest.mark.benchmark
def test_step_sheet_of_the_longest_job_as_html(tmp_path: Path) -> None:
    out = tmp_path / "sheet.html"
    steps = least(out, 0.3)
    numbers = re.findall(r'<th class="n" scope="row">(\d+)</th>', out.read_text(encoding="utf-8"))
    assert steps > 100
    assert numbers == [str(n + 1) for n in range(steps)]


@pytest.mark.benchmark
@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils is not installed")
def test_step_sheet_of_the_longest_job_as_pdf(tmp_path: Path) -> None:
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    out = tmp_path / "sheet.pdf"
    steps = least(out, 2.0)
    told = subprocess.run(["pdfinfo", out], check=True, capture_output=True, text=True).stdout
    pages = re.search(r"Pages:\s+(\d+)", told)
    assert pages
    assert re.search(r"Tagged:\s+yes", told)
    text = subprocess.run(["pdftotext", "-layout", out, "-"], check=True, capture_output=True, text=True).stdout
    counted = re.findall(r"Page (\d+) of (\d+)", text)
    assert counted == [(str(n + 1), pages[1]) for n in range(int(pages[1]))]
    heads = re.findall(r"^\f? *Done +Step +What to do", text, re.MULTILINE)
    assert len(heads) > 5  # the head of the table stands on each of its pages
    numbers = {int(number) for number in re.findall(r"^\f? *(\d+) +\S", text, re.MULTILINE)}
    assert numbers >= set(range(1, steps + 1))
