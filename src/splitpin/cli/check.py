"""`splitpin check`."""

from pathlib import Path
from typing import Annotated

import typer

from splitpin import units
from splitpin.calculations.misused import misused_by_job, misused_by_proofs
from splitpin.cli.arguments import AsJson
from splitpin.cli.saying import answer, answer_json, say, stop_on_errors
from splitpin.hardware.unreadable import unreadable, unreadable_seals
from splitpin.notices import Notice, in_order
from splitpin.reading.check import check_paths
from splitpin.reading.folders import toml_files
from splitpin.reading.library import read_documents, read_library
from splitpin.records.job import JobFile


def run(
    paths: Annotated[list[Path] | None, typer.Argument(metavar="PATHS", help="Files or folders.")] = None,
    as_json: AsJson = False,
) -> None:
    """Check files: all errors at once. Without paths: the catalogue and the procedures."""
    paths = paths or []
    notices = in_order((*check_paths(paths), *_designations(), *_job_readings(paths)))
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


def _job_readings(paths: list[Path]) -> list[Notice]:
    """What the jobs among the files say of calculated readings and cannot."""
    files = [file for path in paths for file in (toml_files(path) if path.is_dir() else [path]) if file.is_file()]
    documents, _ = read_documents(files, files[0] if files else None)
    jobs = [document.record for document in documents if isinstance(document.record, JobFile)]
    return [notice for job in jobs for notice in misused_by_job(job)]


def _designations() -> tuple[Notice, ...]:
    """Standard designations of the catalogue, sizes of its seals and calculated readings that cannot be read."""
    library, _ = read_library()
    joints = [notice for assembly in library.assemblies.values() for notice in unreadable(assembly, library)]
    return (*joints, *unreadable_seals(library), *misused_by_proofs(library))
