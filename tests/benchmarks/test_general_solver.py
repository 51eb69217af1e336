"""Side by side with a general solver: both answers equal where both prove. Run with --benchmark and `ortools`."""

import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.benchmark


def test_the_general_solver_agrees_where_it_proves(root: Path) -> None:
    pytest.importorskip("ortools")
    script = root / "tests/benchmarks/general_solver.py"
    done = subprocess.run(
        [sys.executable, str(script), "--seconds", "20", "--seeds", "1"], capture_output=True, text=True, check=True
    )
    assert len(done.stdout.splitlines()) == 4
