"""Where the catalogue and the procedures lie, and which files a folder holds."""

import os
from collections.abc import Collection
from pathlib import Path

from splitpin import data_top

CATALOG = "catalog"
PROCEDURES = "procedures"
ASSEMBLIES, BUILDS, TEMPLATES = "assemblies", "builds", "jobs"  # folders of these two whose files are called by name


def data_folders() -> tuple[Path, Path]:
    """The bundled `catalog/` and `procedures/`."""
    top = data_top()
    return top / CATALOG, top / PROCEDURES


def toml_files(folder: Path, besides: Collection[str] = ()) -> list[Path]:
    """Every `*.toml` below a folder, sorted by path, hidden ones left out; none where there is no such folder.

    Folders of a name in `besides` that lie in it are not looked into.
    """
    found = []
    for here, folders, names in os.walk(folder):
        top = here == os.fspath(folder)
        folders[:] = [name for name in folders if not name.startswith(".") and not (top and name in besides)]
        found += [Path(here, name) for name in names if name.endswith(".toml") and not name.startswith(".")]
    return sorted(found, key=lambda path: path.parts)


def printed(file: Path, like: Path | None = None) -> str:
    """How a file is named in print, with `/` on every machine.

    A file of the bundled data: from `catalog/` or `procedures/` on. Any other: from the working folder on, where it is
    inside; else absolute where `like`, the path that led to it, is absolute, and else relative.
    """
    whole = Path(os.path.abspath(file))
    for folder in data_folders():
        if whole.is_relative_to(folder):
            return whole.relative_to(folder.parent).as_posix()
    here = Path.cwd()
    if whole.is_relative_to(here):
        return whole.relative_to(here).as_posix()
    if (like or file).is_absolute():
        return whole.as_posix()
    return Path(os.path.relpath(whole, here)).as_posix()


def firm_file(job: Path) -> Path | None:
    """The nearest `firm.toml` in the job's folder or above it."""
    folder = Path(os.path.abspath(job)).parent
    for place in (folder, *folder.parents):
        if (place / "firm.toml").is_file():
            return place / "firm.toml"
    return None


def source_text(path: str) -> str | None:
    """The text of a file by its printed path, for the source line of a notice; None where it is gone.

    A printed path is looked for from the working folder on, then among the bundled data. What is not UTF-8 is replaced,
    so that a notice about it can show the rest of its line.
    """
    for file in (Path(path), data_top() / path):
        if file.is_file():
            return file.read_bytes().decode("utf-8-sig", errors="replace").replace("\r\n", "\n")
    return None
