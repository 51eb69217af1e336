"""The outside program prints one JSON line for every answer."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

TINY = """NAME: tiny
TYPE: SOP
DIMENSION: 4
EDGE_WEIGHT_SECTION
4
0 3 1 1000000
-1 0 4 6
-1 2 0 5
-1 -1 -1 0
EOF
"""


def outside(root: Path, *arguments: str) -> list[dict]:
    done = subprocess.run(
        [sys.executable, str(root / "tests/benchmarks/outside.py"), *arguments],
        capture_output=True,
        text=True,
        check=True,
    )
    return [json.loads(line) for line in done.stdout.splitlines()]


def test_a_sequential_ordering_file_is_solved(root: Path, tmp_path: Path) -> None:
    """Start, 2, 3, end costs 3 + 4 + 5; start, 3, 2, end costs 1 + 2 + 6."""
    path = tmp_path / "tiny.sop"
    path.write_text(TINY, encoding="utf-8")
    (line,) = outside(root, "sop", str(path), "--seconds", "5")
    seconds = line.pop("seconds")
    assert line == {"name": "tiny", "nodes": 4, "cost": 9, "bound": 9, "proved": True}
    assert 0 <= seconds < 5


@pytest.mark.parametrize("waits", ["0", "2"])
def test_an_appliance_is_made_from_its_seed_and_solved(root: Path, waits: str) -> None:
    arguments = ("plant", "--components", "6", "--seed", "3", "--waits", waits)
    first, second = outside(root, *arguments)[0], outside(root, *arguments)[0]
    assert (first["proved"], first["cost"]) == (True, first["bound"])
    assert {**first, "seconds": 0} == {**second, "seconds": 0}
