"""`splitpin new`."""

from pathlib import Path

from splitpin.cli.document import checked, write_whole
from splitpin.cli.known import assembly_named
from splitpin.cli.saying import answer, say, usage
from splitpin.reading.library import read_library
from splitpin.writing import new_job


def run(name: str, reference: str, title: str, out: Path | None) -> None:
    """Print or write a job file for an assembly; a file that is there is left alone."""
    if not reference.strip() or not title.strip():
        raise usage("--reference and --title need words")
    if out is not None:
        checked(out)
        if out.exists():
            raise usage(f"--out: {out} is there already; name a new file")
    library, notices = read_library()
    assembly = assembly_named(name, library)
    say(notices)
    text = new_job(assembly, reference, title)
    if out is None:
        answer(text)
    else:
        write_whole(out, text.encode("utf-8"))
        answer(f"{out}: take the # off what is asked for, then: splitpin plan {out}")
