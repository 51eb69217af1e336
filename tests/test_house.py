"""The house stands as it is drawn: rooms import only downwards, modules stay small, nothing is left lying about."""

import ast
import subprocess
from importlib.util import resolve_name
from pathlib import Path

import pytest

ROOMS = (
    "units",
    "notices",
    "records",
    "hardware",
    "calculations",
    "reading",
    "writing",
    "history",
    "access",
    "ordering",
    "planning",
    "timing",
    "faults",
    "supply",
    "pricing",
    "sheets",
    "cli",
)
PIPELINE = ("asked", "plant", "opening", "programme", "best", "written")  # the rooms of planning, but for its check
SOURCE = Path(__file__).resolve().parent.parent / "src" / "splitpin"
MODULES = sorted(SOURCE.rglob("*.py"))


def name_of(module: Path) -> str:
    """`splitpin.planning.best.choose`."""
    return ".".join(module.relative_to(SOURCE.parent).with_suffix("").parts).removesuffix(".__init__")


def room_of(module: Path) -> str:
    return module.relative_to(SOURCE).parts[0].removesuffix(".py")


def imports(module: Path) -> set[str]:
    """The dotted names of what a module imports, wherever in it; of `from x import y` both together: `x.y`."""
    package = name_of(module) if module.name == "__init__.py" else name_of(module).rpartition(".")[0]
    found = set()
    for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            source = resolve_name("." * node.level + (node.module or ""), package)
            found |= {f"{source}.{alias.name}" for alias in node.names}
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    return found


def rooms_imported(module: Path, within: str = "splitpin") -> set[str]:
    """The rooms of the house, or of a room of it, from which a module imports."""
    inside = f"{within}."
    return {name.removeprefix(inside).split(".")[0] for name in imports(module) if name.startswith(inside)}


@pytest.mark.parametrize(
    ("text", "rooms"),
    [
        ("import splitpin.units", {"units"}),
        ("import splitpin.units as u, splitpin.access.bound", {"units", "access"}),
        ("from splitpin import units", {"units"}),
        ("from splitpin.access import bound", {"access"}),
        ("from splitpin.access.bound import Bound", {"access"}),
        ("from . import bound", {"planning"}),
        ("from .. import access", {"access"}),
        ("def f():\n    from ..access.bound import Bound", {"access"}),
        ("import ast\nfrom pathlib import Path", set()),
    ],
)
def test_every_way_to_import_is_seen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str, rooms: set[str]
) -> None:
    module = tmp_path / "splitpin" / "planning" / "plan.py"
    module.parent.mkdir(parents=True)
    module.write_text(text, encoding="utf-8")
    monkeypatch.setattr("tests.test_house.SOURCE", tmp_path / "splitpin")
    assert rooms_imported(module) == rooms


def test_the_list_names_the_rooms_that_there_are() -> None:
    assert {room_of(module) for module in MODULES} == {*ROOMS, "__init__"}
    planning = {path.name for path in (SOURCE / "planning").iterdir() if path.is_dir() and any(path.glob("*.py"))}
    assert planning == {*PIPELINE, "check"}


@pytest.mark.parametrize("module", MODULES, ids=name_of)
def test_a_room_imports_only_lower_rooms(module: Path) -> None:
    own = ROOMS.index(room_of(module)) if room_of(module) in ROOMS else -1  # the package itself imports none
    assert rooms_imported(module) - {"data_top"} <= {*ROOMS[: own + 1]}  # where its data lie, the package says


@pytest.mark.parametrize("room", PIPELINE)
def test_a_room_of_planning_imports_only_earlier_ones(room: str) -> None:
    for module in sorted((SOURCE / "planning" / room).rglob("*.py")):
        assert rooms_imported(module, "splitpin.planning") <= {*PIPELINE[: PIPELINE.index(room) + 1]}, module


@pytest.mark.parametrize("module", sorted((SOURCE / "planning" / "check").rglob("*.py")), ids=name_of)
def test_the_check_of_plans_shares_no_code_with_planning(module: Path) -> None:
    assert rooms_imported(module) <= {"units", "notices", "records", "hardware", "planning"}
    assert rooms_imported(module, "splitpin.planning") <= {"check"}


@pytest.mark.parametrize("module", MODULES, ids=name_of)
def test_a_module_fits_in_the_mind(module: Path) -> None:
    assert len(module.read_text(encoding="utf-8").splitlines()) <= 400


@pytest.mark.parametrize("room", ["access", "ordering", "supply"])
def test_the_independent_check_shares_no_code_with_the_search(room: str) -> None:
    assert rooms_imported(SOURCE / room / "check.py") <= {room}
    assert rooms_imported(SOURCE / room / "check.py", f"splitpin.{room}") <= {"problem", "result"}


def test_the_core_reads_no_clock_no_locale_no_environment() -> None:
    for module in MODULES:
        if room_of(module) not in ("cli", "reading"):
            assert not {name.split(".")[0] for name in imports(module)} & {"time", "locale", "os", "random"}, module


@pytest.mark.parametrize("module", MODULES, ids=name_of)
def test_nothing_is_kept_between_runs(module: Path) -> None:
    kept = {"pickle", "marshal", "shelve", "dbm", "copyreg"}
    assert not {name.split(".")[0] for name in imports(module)} & kept


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
