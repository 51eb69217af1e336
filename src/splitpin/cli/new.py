"""`splitpin new`."""

from pathlib import Path
from typing import Annotated

import typer

from splitpin.cli.arguments import AssemblyId
from splitpin.cli.document import writable, write_whole
from splitpin.cli.known import assembly_named
from splitpin.cli.saying import answer, say, usage
from splitpin.reading.library import read_library
from splitpin.writing import new_job


def run(
    assembly: AssemblyId,
    reference: Annotated[str, typer.Option("--reference", help="The job's reference.")],
    title: Annotated[str, typer.Option("--title", help="What the job is.")],
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE.toml", help="Default: print it.", callback=writable)
    ] = None,
) -> None:
    """Start a job file: its head, and every task and symptom of the assembly to choose from."""
    if not reference.strip() or not title.strip():
        raise usage("--reference and --title need words")
    if out is not None and out.exists():
        raise usage(f"--out: {out} is there already; name a new file")
    library, notices = read_library()
    found = assembly_named(assembly, library)
    say(notices)
    text = new_job(found, reference, title, library.emergencies.values())
    if out is None:
        answer(text)
    else:
        write_whole(out, text.encode("utf-8"))
        answer(f"{out}: take the # off what is asked for, then: splitpin plan {out}")
