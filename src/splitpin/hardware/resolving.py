"""Hardware resolved: one and the same, whether a joint names a row of the catalogue or a standard designation."""

from __future__ import annotations

import re
from dataclasses import replace
from difflib import get_close_matches
from typing import TYPE_CHECKING

from splitpin.hardware.fault import Fault
from splitpin.hardware.fixing import Fixing

if TYPE_CHECKING:
    from splitpin.records.catalogue import Hardware, Reuse
    from splitpin.records.library import Library

ROW_ID = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")

_WORKED_OUT: dict[str, Fixing | tuple[Fault, ...]] = {}  # designations met in this process: they mean what they mean


def resolve(text: str, library: Library) -> Fixing | tuple[Fault, ...]:
    """The fixing of a hardware row's id or of a standard designation; else what is wrong with the text, by place.

    Of a designation, tools that the library does not have are left out where another would do; a need without any is
    a fault. Cost: one look-up for a row; parsing and a few look-ups for a designation, kept for the next time.
    """
    row = library.hardware.get(text)
    if row is not None:
        return _of_row(text, row, library)
    if ROW_ID.fullmatch(text):
        close = get_close_matches(text, sorted(library.hardware), n=1)
        hint = f"did you mean `{close[0]}`?" if close else "name a [[hardware]] row or a standard designation"
        return (Fault(0, len(text), f"`{text}` is not a row of hardware", hint),)
    found = _WORKED_OUT.get(text)
    if found is None:
        from splitpin.hardware.designated import fixing_of  # reads the tables of the standards

        found = _WORKED_OUT[text] = fixing_of(text)
    if not isinstance(found, Fixing) or not library.tools:
        return found
    return _with_known_tools(found, library)


def _of_row(text: str, row: Hardware, library: Library) -> Fixing:
    part = library.parts.get(row.part) if row.part else None
    return Fixing(
        id=text,
        title=row.title,
        plural=row.plural or f"{row.title}s",
        kind=row.kind,
        tools=row.tools,
        off_s=row.off_s,
        on_s=row.on_s,
        log_spread=row.log_spread,
        reuse=row.reuse,
        uses=row.uses,
        reuse_reason=f"{REASONS[row.reuse]} ({row.origin})",
        part=row.part,
        part_title=part.title if part else None,
        consumables=row.consumables,
        torque=None,
        origin=row.origin,
        place=row.place,
    )


REASONS: dict[Reuse, str] = {
    "reusable": "goes back if undamaged",
    "renew": "a new one at every assembly",
    "inspect": "inspect, and renew if worn or distorted",
    "n-times": "goes back a limited number of times",
}


def _with_known_tools(fixing: Fixing, library: Library) -> Fixing | tuple[Fault, ...]:
    known = tuple(tuple(tool for tool in choice if tool in library.tools) for choice in fixing.tools)
    for choice, kept in zip(fixing.tools, known, strict=True):
        if not kept:
            message = f"the catalogue has no tool for this: it takes {' or '.join(choice)}"
            return (Fault(0, len(fixing.id), message, "add it to tools.toml"),)
    return replace(fixing, tools=known)
