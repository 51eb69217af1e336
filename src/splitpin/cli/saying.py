"""Notices to stderr, results to stdout."""

import json
import sys
from collections.abc import Iterable, Sequence
from dataclasses import fields, is_dataclass
from typing import Any

from splitpin.cli import exits
from splitpin.notices import Notice, has_errors
from splitpin.notices.render import render
from splitpin.reading.folders import source_text


def say(notices: Iterable[Notice]) -> None:
    """Print notices to stderr, each with its place and source line."""
    sys.stderr.write(render(notices, source_text))


def stop_on_errors(notices: Iterable[Notice]) -> None:
    """Leave with exit code 1 when a notice is an error."""
    if has_errors(notices):
        raise SystemExit(exits.ERRORS)


def heed(notices: Sequence[Notice]) -> None:
    """Print the warnings and errors among the notices; leave with exit code 1 when one is an error."""
    say(notice for notice in notices if notice.severity != "note")
    stop_on_errors(notices)


def answer(text: str) -> None:
    """Print a result to stdout."""
    sys.stdout.write(text if text.endswith("\n") else text + "\n")


def answer_json(value: object) -> None:
    """Print a result as JSON to stdout."""
    answer(json.dumps(_plain(value), ensure_ascii=False, indent=2))


def usage(message: str) -> SystemExit:
    """A usage error: the message to stderr; raise what comes back."""
    print(f"splitpin: {message}", file=sys.stderr)
    return SystemExit(exits.USAGE)


def _plain(value: Any) -> Any:
    """Frozen dataclasses and named tuples as dictionaries of their names, all the way down."""
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return {name: _plain(inner) for name, inner in value._asdict().items()}
    if isinstance(value, dict):
        return {name: _plain(inner) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    return value
