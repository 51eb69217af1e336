"""The wheel carries the catalogue and the procedures, whole."""

import subprocess
import zipfile
from pathlib import Path

import pytest


def test_the_wheel_holds_every_data_file_that_is_tracked(root: Path, tmp_path: Path) -> None:
    hatchling = pytest.importorskip("hatchling.build", reason="hatchling, of the extra test, builds the wheel")
    tracked = subprocess.run(
        ["git", "ls-files", "catalog", "procedures"], cwd=root, capture_output=True, text=True, check=False
    )
    if tracked.returncode:
        pytest.skip("not a git checkout")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(root)
        name = hatchling.build_wheel(str(tmp_path))
    with zipfile.ZipFile(tmp_path / name) as wheel:
        names = set(wheel.namelist())
    wanted = {f"splitpin/_data/{path}" for path in tracked.stdout.split() if not path.endswith(".gitkeep")}
    assert wanted and wanted <= names
    assert {"splitpin/sheets/press/print.css", "splitpin/py.typed"} <= names
