"""The step sheet of the longest example job as whole processes: to HTML and to PDF. The least of several runs is told.

Our own aims are 300 ms to HTML and 2 s to PDF by the clock of a quiet machine; neither is reached yet. What is asserted
is processor time, which other work on the machine changes less: a guard against getting slower, not the aim.
"""

import resource
import subprocess
import sys
import time
from pathlib import Path

import pytest

JOB = Path(__file__).resolve().parents[2] / "examples" / "skerrowdale" / "jobs" / "heater-annual-service.toml"
RUNS = 5
COMMAND = "from splitpin.cli.start import main; main()"


def took(out: Path) -> tuple[float, float]:
    """Seconds by the clock and of the processor that one run takes."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    begun = time.perf_counter()
    subprocess.run([sys.executable, "-c", COMMAND, "sheet", JOB, "--out", out], check=True, capture_output=True)
    wall = time.perf_counter() - begun
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


@pytest.mark.benchmark
@pytest.mark.parametrize(("suffix", "aim_s", "guard_s"), [("html", 0.3, 1.2), ("pdf", 2.0, 4.5)])
def test_step_sheet_of_the_longest_job(suffix: str, aim_s: float, guard_s: float, tmp_path: Path) -> None:
    if suffix == "pdf":
        pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    runs = [took(tmp_path / f"sheet.{suffix}") for _ in range(RUNS)]
    wall, processor = min(run[0] for run in runs), min(run[1] for run in runs)
    print(f"\n{suffix}: {wall:.2f} s by the clock, {processor:.2f} s of the processor; aim {aim_s} s")
    assert processor < guard_s
