"""`splitpin plan` as a whole process: how often the time that loading its two command line libraries takes.

Both are measured in one run, in turn, as processor time; the least of several counts. The first plan of a job reads its
files, every later one its snapshot; both print the same.
"""

import os
import resource
import subprocess
import sys
from pathlib import Path

import pytest

from splitpin.cli.cache import VARIABLE

JOBS = Path(__file__).resolve().parents[2] / "examples" / "skerrowdale" / "jobs"
LOADING = "import typer, pydantic"
PLANNING = "from splitpin.cli.start import main; main()"
RUNS = 11


def processor_s(code: str, *words: str | Path, folder: Path) -> tuple[float, bytes]:
    """Seconds of the processor that one process takes, and what it printed."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(
        [sys.executable, "-c", code, *words], check=True, capture_output=True, env={**os.environ, VARIABLE: str(folder)}
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, done.stdout + done.stderr


@pytest.mark.benchmark
@pytest.mark.parametrize("job", ["heater-pump", "heater-annual-service"])
def test_a_plan_takes_less_than_three_times_the_loading_of_typer_and_pydantic(job: str, tmp_path: Path) -> None:
    words = ("plan", JOBS / f"{job}.toml")
    first, printed = processor_s(PLANNING, *words, folder=tmp_path)
    loading, planning = [], []
    for _ in range(RUNS):
        loading.append(processor_s(LOADING, folder=tmp_path)[0])
        seconds, again = processor_s(PLANNING, *words, folder=tmp_path)
        planning.append(seconds)
        assert again == printed
    ratio = min(planning) / min(loading)
    print(f"\n{job}: first {first:.3f} s, later {min(planning):.3f} s, loading {min(loading):.3f} s: {ratio:.2f} times")
    assert ratio < 3
