"""`splitpin check`."""

from pathlib import Path
from typing import Annotated

import typer

from splitpin import units
from splitpin.cli.arguments import AsJson
from splitpin.cli.saying import answer, answer_json, say, stop_on_errors
from splitpin.reading.check import check_paths


def run(
    paths: Annotated[list[Path] | None, typer.Argument(metavar="PATHS", help="Files or folders.")] = None,
    as_json: AsJson = False,
) -> None:
    """Check files: all errors at once. Without paths: the catalogue and the procedures."""
    notices = check_paths(paths or [])
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
