"""Notices as text for people and as JSON for programs."""

import json
from collections.abc import Callable, Iterable

from splitpin.notices.notice import Notice
from splitpin.notices.place import Place


def render(notices: Iterable[Notice], source_of: Callable[[str], str | None]) -> str:
    """Each notice as `path:line:column: severity[code]: message`, its hint, the source line and a caret under it.

    What stands in a build also names the line that includes it.

    `source_of` gives the text of a file by its printed path, or None; the source line is left out then, and where the
    notice is about a file as a whole. The notices keep their order. Ends in a line end unless there are none.
    """
    texts: dict[str, list[str]] = {}
    lines = []
    for notice in notices:
        place = notice.place
        lines.append(f"{_point(place)}{notice.severity}[{notice.code}]: {notice.message}")
        if notice.hint:
            lines.append(f"  hint: {notice.hint}")
        if place.included_at:
            lines.append(f"  included at {place.included_at}")
        if place.line:
            if place.path not in texts:
                texts[place.path] = (source_of(place.path) or "").split("\n")
            lines += _marked(texts[place.path], place)
    return "".join(f"{line}\n" for line in lines)


def render_json(notices: Iterable[Notice]) -> str:
    """A list of objects with the fields of `Notice.as_json`, in the order given; ends in a line end."""
    return json.dumps([notice.as_json() for notice in notices], ensure_ascii=False, indent=2) + "\n"


def _point(place: Place) -> str:
    if not place.path:
        return ""
    return f"{place.path}:{place.line}:{place.column}: " if place.line else f"{place.path}: "


def _marked(text: list[str], place: Place) -> list[str]:
    """The line of the place, and carets under it; a tab stays a tab, so that the carets stand where they should."""
    if place.line > len(text):
        return []
    line = text[place.line - 1]
    if not line.strip():
        return []
    before = "".join("\t" if character == "\t" else " " for character in line[: place.column - 1])
    return [f"  {line}", f"  {before}{'^' * place.width}"]
