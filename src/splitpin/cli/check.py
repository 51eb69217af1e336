"""`splitpin check`."""

from pathlib import Path

from splitpin import units
from splitpin.cli.saying import answer, answer_json, say, stop_on_errors
from splitpin.hardware import unreadable, unreadable_seals
from splitpin.notices import Notice, in_order
from splitpin.reading import check_paths, read_library


def run(paths: list[Path], *, as_json: bool) -> None:
    """Print every notice about the files; exit code 1 when one is an error."""
    notices = in_order((*check_paths(paths), *_designations()))
    if as_json:
        answer_json([notice.as_json() for notice in notices])
    else:
        say(notices)
        errors = sum(notice.severity == "error" for notice in notices)
        rest = len(notices) - errors
        answer("no errors" if not errors else units.counted(errors, "error"))
        if rest:
            answer(units.counted(rest, "other notice"))
    stop_on_errors(notices)


def _designations() -> tuple[Notice, ...]:
    """Standard designations of the catalogue, and sizes of its seals, that cannot be read."""
    library, _ = read_library()
    joints = [notice for assembly in library.assemblies.values() for notice in unreadable(assembly, library)]
    return (*joints, *unreadable_seals(library))
