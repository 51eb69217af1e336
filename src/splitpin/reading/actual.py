"""A visit as it was, from the JSON that the pocket sheet exports or from TOML written by hand."""

import datetime
import json
import re
from contextlib import suppress
from pathlib import Path
from typing import Any, get_args

import tomli
from pydantic import ValidationError

from splitpin.notices import Notice, Place, in_order
from splitpin.notices.nearest import nearest
from splitpin.reading.document import FORMAT
from splitpin.reading.folders import printed
from splitpin.reading.json_positions import GivenTwice, scan_json
from splitpin.reading.located import Located, Steps
from splitpin.reading.positions import Lines
from splitpin.reading.source import Source, read_source
from splitpin.reading.syntax import syntax_notice, too_long
from splitpin.reading.wording import value_notices
from splitpin.records.actual import Actual
from splitpin.records.library import Visit
from splitpin.records.plan import Phase

_HALF = re.compile(r"\\u[dD][89a-fA-F]")


def read_actual(file: Path, like: Path | None = None) -> tuple[Actual | None, tuple[Notice, ...]]:
    """The visit and what is wrong with the file; None where it cannot be used. JSON begins with a brace."""
    source = read_source(file, printed(file, like))
    if isinstance(source, Notice):
        return None, (source,)
    is_json = source.text.lstrip().startswith("{")
    toml = _from_json(source) if is_json else _from_toml(source)
    if isinstance(toml, Notice):
        return None, (toml,)
    if toml.value(("format",)) != FORMAT:
        message = f"`format` is {toml.typed('format')}" if "format" in toml.data else "this file has no `format`"
        return None, (Notice("format-unknown", f"{message}; this version reads format {FORMAT}", toml.place("format")),)
    if strange := _placed(toml) + _strange_phases(toml):
        return None, in_order(strange)
    try:
        actual = Actual.model_validate(toml.data)
    except ValidationError as error:
        return None, in_order(value_notices(error, toml, Actual))
    if actual.total_min is None and not actual.phases:
        hint = "write `total_min`, the hands-on minutes of the visit, or `phases`"
        return None, (Notice("missing-key", "this visit says no time", Place(source.path, 1, 1), hint),)
    together = sum(actual.phases.values())
    if actual.total_min is not None and together > actual.total_min + 1:  # a minute for what was rounded
        message = f"`total_min` is {actual.total_min:g}, less than its phases together: {together:g}"
        return None, (Notice("out-of-range", message, toml.place("total_min")),)
    for number, photo in enumerate(actual.photos):
        if not photo.data.startswith(("data:image/jpeg;base64,", "data:image/png;base64,")):
            message = f"the photo {photo.name} is no picture as a data URL"
            return None, (Notice("wrong-kind", message, toml.place("photos", number, "data"), "export it again"),)
    return actual.model_copy(update={"place": Place(source.path, 1, 1)}), ()


def _from_toml(source: Source) -> Located | Notice:
    try:
        data = tomli.loads(source.text)
    except (ValueError, RecursionError) as error:
        return syntax_notice(error, Lines(source.path, source.text))
    return Located(data, Lines(source.path, source.text))


def _from_json(source: Source) -> Located | Notice:
    lines = Lines(source.path, source.text)
    try:
        data: Any = json.loads(source.text)
        spots = scan_json(source.text)  # at once: a name that is given twice is an error
    except json.JSONDecodeError as error:
        message = f"this is not JSON: {error.msg[:1].lower()}{error.msg[1:]}"
        return Notice("json-syntax", message, Place(source.path, error.lineno, error.colno))
    except GivenTwice as twice:
        return Notice("json-syntax", f"`{twice.name}` is given twice", lines.place(twice.start, twice.end))
    except ValueError:
        return too_long(lines, "json-syntax")
    except RecursionError:
        return Notice("json-syntax", "this is not JSON of ours: it is nested too deeply", Place(source.path, 1, 1))
    half = _HALF.search(source.text)
    if half is not None and not _writable(data):
        return Notice("json-syntax", "a text holds half of a character", lines.place(half.start(), half.end()))
    with suppress(KeyError, TypeError, ValueError):  # JSON has no dates; what is none is told like any wrong value
        data["date"] = datetime.date.fromisoformat(data["date"])
    return Located(data, lines, lambda text: spots)


def _writable(data: Any) -> bool:
    try:
        json.dumps(data, ensure_ascii=False).encode("utf-8")
    except UnicodeEncodeError:
        return False
    return True


def _placed(toml: Located, steps: Steps = ()) -> list[Notice]:
    """Put its place into every table that becomes a record. Notices where a file gives that name itself."""
    here = toml.value(steps)
    if isinstance(here, list):
        return [notice for at in range(len(here)) for notice in _placed(toml, (*steps, at))]
    if not isinstance(here, dict) or steps == ("phases",):
        return []
    notices = [notice for key in here for notice in _placed(toml, (*steps, key))]
    if "place" in here:
        message = f"`place` is not a key of {toml.named(steps)}"
        notices.append(Notice("unknown-key", message, toml.key_place(*steps, "place")))
    here["place"] = toml.later(steps)
    return notices


def _strange_phases(toml: Located) -> list[Notice]:
    phases = toml.value(("phases",))
    known = get_args(Phase)
    return [
        Notice(
            "unknown-key",
            f"`{name}` is no phase; there are {', '.join(known)}",
            toml.key_place("phases", name),
            f"did you mean `{near}`?" if (near := nearest(name, known)) else "",
        )
        for name in (phases if isinstance(phases, dict) else ())
        if name not in known
    ]


def disagreements(actual: Actual, visit: Visit) -> tuple[Notice, ...]:
    """Where the visit as it was does not fit the job it is said to be of. An unknown part is a note, no error."""
    job, assembly = visit.job.job, visit.assembly
    notices = []
    if actual.job != job.reference:
        message = f"this visit is of job {actual.job}, not of {job.reference}"
        notices.append(Notice("other-job", message, actual.place))
    if actual.assembly != assembly.assembly.id:
        message = f"this visit is to a {actual.assembly}, the job to a {assembly.assembly.id}"
        notices.append(Notice("other-job", message, actual.place))
    components = {component.id for component in assembly.component}
    for found in actual.found:
        if found.component not in components:
            near = nearest(found.component, components)
            hint = f"did you mean `{near}`?" if near else ""
            message = f"`{found.component}` is no component of the {assembly.assembly.title}"
            notices.append(Notice("unknown-id", message, found.place, hint))
    known = {*visit.library.parts, *visit.library.seals, *visit.library.hardware}
    for part in actual.parts:
        if part.part not in known:
            notices.append(Notice("part-unknown", f"the catalogue has no part `{part.part}`", part.place))
    return in_order(notices)
