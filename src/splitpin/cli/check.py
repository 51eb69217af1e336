"""`splitpin check`."""

from pathlib import Path

from splitpin import units
from splitpin.cli.saying import answer, answer_json, say, stop_on_errors
from splitpin.reading import check_paths


def run(paths: list[Path], *, as_json: bool) -> None:
    """Print every notice about the files; exit code 1 when one is an error."""
    notices = check_paths(paths)
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
