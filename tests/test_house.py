"""The house stands as it is drawn: rooms import only downwards, modules stay small, nothing is left lying about."""

import ast
import subprocess
from pathlib import Path

import pytest

ROOMS = (
    "units",
    "notices",
    "records",
    "reading",
    "writing",
    "history",
    "hardware",
    "calculations",
    "access",
    "ordering",
    "planning",
    "timing",
    "faults",
    "supply",
    "pricing",
    "sheets",
    "web",
    "cli",
)
SOURCE = Path(__file__).resolve().parent.parent / "src" / "splitpin"
MODULES = sorted(SOURCE.rglob("*.py"))


def room_of(module: Path) -> str:
    part = module.relative_to(SOURCE).parts[0]
    return part.removesuffix(".py")


def rooms_imported(module: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("splitpin"):
            parts = node.module.split(".")
            found |= {parts[1]} if len(parts) > 1 else {alias.name for alias in node.names}
        elif isinstance(node, ast.Import):
            found |= {alias.name.split(".")[1] for alias in node.names if alias.name.startswith("splitpin.")}
    return found & set(ROOMS)


def test_every_room_is_on_the_list() -> None:
    assert {room_of(module) for module in MODULES} <= {*ROOMS, "__init__"}


@pytest.mark.parametrize("module", MODULES, ids=lambda module: str(module.relative_to(SOURCE)))
def test_a_room_imports_only_lower_rooms(module: Path) -> None:
    if room_of(module) == "__init__":
        assert rooms_imported(module) == set()
        return
    floor = ROOMS.index(room_of(module))
    assert {room for room in rooms_imported(module) if ROOMS.index(room) > floor} == set()


@pytest.mark.parametrize("module", MODULES, ids=lambda module: str(module.relative_to(SOURCE)))
def test_a_module_fits_in_the_mind(module: Path) -> None:
    assert len(module.read_text(encoding="utf-8").splitlines()) <= 400


@pytest.mark.parametrize("room", ["access", "ordering", "supply"])
def test_the_independent_check_shares_no_code_with_the_search(room: str) -> None:
    tree = ast.parse((SOURCE / room / "check.py").read_text(encoding="utf-8"))
    imported = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module is not None}
    ours = {name for name in imported if name.startswith("splitpin")}
    assert ours <= {f"splitpin.{room}.problem", f"splitpin.{room}.result"}


def test_the_plan_check_shares_no_code_with_planning() -> None:
    for module in sorted((SOURCE / "planning" / "check").rglob("*.py")):
        tree = ast.parse(module.read_text(encoding="utf-8"))
        names = {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
        planning = {name for name in names if name.startswith("splitpin.planning")}
        assert planning == {name for name in planning if name.startswith("splitpin.planning.check")}, module


def test_the_core_reads_no_clock_no_locale_no_environment() -> None:
    for module in MODULES:
        if room_of(module) in ("cli", "web", "reading"):
            continue
        tree = ast.parse(module.read_text(encoding="utf-8"))
        names = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
        assert not names & {"time", "locale", "os", "random"}, module


def test_no_lock_file_and_no_machine_path_is_tracked(root: Path) -> None:
    tracked = subprocess.run(["git", "ls-files"], cwd=root, capture_output=True, text=True, check=False)
    if tracked.returncode:
        pytest.skip("not a git checkout")
    names = tracked.stdout.split()
    assert "uv.lock" not in names
    parent = str(root.parent) + "/"
    for name in names:
        text = (root / name).read_bytes() if (root / name).is_file() else b""
        assert parent.encode() not in text or parent == "/", name
