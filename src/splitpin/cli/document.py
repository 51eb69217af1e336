"""Documents to files: whole or not at all, as HTML or, by the file's name, as PDF."""

import os
import tempfile
from pathlib import Path
from typing import Annotated, cast, get_args

import typer

from splitpin.cli.saying import usage
from splitpin.sheets.press.language import LANGUAGES, Language
from splitpin.sheets.press.paper import Paper
from splitpin.sheets.press.pdf import NoPdf, pdf


def _paper(text: str) -> Paper:
    if text not in get_args(Paper):
        raise usage(f"--paper is {text}; it may be {' or '.join(get_args(Paper))}")
    return cast(Paper, text)


def _language(text: str) -> Language:
    if text not in LANGUAGES:
        raise usage(f"--language is {text}; it may be {', '.join(LANGUAGES)}")
    return text


def writable(param: typer.CallbackParam, out: Path | None) -> Path | None:
    """The file that an option names; a place that cannot be is refused before any work is done."""
    if out is not None and not out.parent.is_dir():
        raise usage(f"{param.opts[0]}: there is no folder {out.parent}")
    if out is not None and out.is_dir():
        raise usage(f"{param.opts[0]}: {out} is a folder; name a file")
    return out


Out = Annotated[
    Path, typer.Option("--out", metavar="FILE", help="Where to write it: FILE.html or FILE.pdf.", callback=writable)
]
MaybeOut = Annotated[
    Path | None,
    typer.Option("--out", metavar="FILE", help="Write the printed page: FILE.html or FILE.pdf.", callback=writable),
]
PaperSize = Annotated[Paper, typer.Option("--paper", metavar="SIZE", help="A4 or Letter.", parser=_paper)]
InLanguage = Annotated[
    Language,
    typer.Option("--language", metavar="CODE", help="Of the fixed words: en, de or es.", parser=_language),
]


def write_document(out: Path, html: str) -> None:
    """The document to `out`: PDF where the name ends in .pdf, else HTML."""
    if out.suffix.lower() != ".pdf":
        return write_whole(out, html.encode("utf-8"))
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
