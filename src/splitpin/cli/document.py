"""Documents to files: whole or not at all, as HTML or, by the file's name, as PDF."""

import os
import tempfile
from pathlib import Path

from splitpin.cli.saying import usage

PAPERS = ("A4", "Letter")


def checked(out: Path, *, paper: str = "A4", language: str | None = None, option: str = "--out") -> None:
    """Refuse a paper, a language or a place that cannot be, before any work is done."""
    if paper not in PAPERS:
        raise usage(f"--paper is {paper}; it may be {' or '.join(PAPERS)}")
    if language is not None:
        from splitpin.sheets.language import LANGUAGES

        if language not in LANGUAGES:
            raise usage(f"--language is {language}; it may be {', '.join(LANGUAGES)}")
    if not out.parent.is_dir():
        raise usage(f"{option}: there is no folder {out.parent}")
    if out.is_dir():
        raise usage(f"{option}: {out} is a folder; name a file")


def write_document(out: Path, html: str) -> None:
    """The document to `out`: PDF where the name ends in .pdf, else HTML."""
    if out.suffix.lower() != ".pdf":
        return write_whole(out, html.encode("utf-8"))
    from splitpin.sheets.pdf import NoPdf, pdf

    try:
        return write_whole(out, pdf(html))
    except NoPdf as reason:
        raise usage(f"{reason}") from None


def write_whole(out: Path, content: bytes) -> None:
    """The file is there whole or not at all: written beside its place, then moved there."""
    try:
        handle, beside = tempfile.mkstemp(dir=out.parent, prefix=f".{out.name[:100]}.")
    except OSError as reason:
        raise usage(f"{out.parent} cannot be written to: {reason.strerror}") from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        os.chmod(beside, 0o644)
        os.replace(beside, out)
    except BaseException:
        os.unlink(beside)
        raise
