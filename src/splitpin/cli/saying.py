"""Notices to stderr, results to stdout."""

import json
import sys
from collections.abc import Iterable

from splitpin.cli import exits
from splitpin.notices import Notice, has_errors
from splitpin.notices.render import render
from splitpin.reading.folders import source_text


def say(notices: Iterable[Notice]) -> None:
    """Print notices to stderr, each with its place and source line."""
    sys.stderr.write(render(notices, source_text))


def answer(text: str) -> None:
    """Print a result to stdout."""
    sys.stdout.write(text if text.endswith("\n") else text + "\n")


def answer_json(value: object) -> None:
    """Print a result as JSON to stdout."""
    answer(json.dumps(value, ensure_ascii=False, indent=2))


def stop_on_errors(notices: Iterable[Notice]) -> None:
    """Leave with exit code 1 when a notice is an error."""
    if has_errors(notices):
        raise SystemExit(exits.ERRORS)


def usage(message: str) -> SystemExit:
    """A usage error: the message to stderr; raise what comes back."""
    print(f"splitpin: {message}", file=sys.stderr)
    return SystemExit(exits.USAGE)
