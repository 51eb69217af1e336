"""The outside program prints one JSON line for every target of an AND/OR file."""

import json
import subprocess
import sys
from pathlib import Path

SHARED = {
    "name": "shared",
    "n": 4,
    "task_time": {"1": 4, "2": 3, "3": 1, "4": 1},
    "and_pred": [[1, 4], [3, 4]],
    "or_pred": {"3": [1, 2]},
}
"""Task 3 after 1 or 2, task 4 after 1 and 3: the shared task 1 makes 4 cost 6, and 3 alone costs 4 through 2."""


def test_each_target_has_its_least_cost_and_an_order(root: Path, tmp_path: Path) -> None:
    path = tmp_path / "shared.json"
    path.write_text(json.dumps(SHARED), encoding="utf-8")
    command = [sys.executable, str(root / "tests/benchmarks/outside.py"), "andor", str(path)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    assert [(line["name"], line["target"], line["cost"], line["tasks"], line["proved"]) for line in lines] == [
        ("shared", 1, 4, [1], True),
        ("shared", 2, 3, [2], True),
        ("shared", 3, 4, [2, 3], True),
        ("shared", 4, 6, [1, 3, 4], True),
    ]
    one = subprocess.run([*command, "--target", "4"], capture_output=True, text=True, check=True)
    assert [json.loads(line)["cost"] for line in one.stdout.splitlines()] == [6]
