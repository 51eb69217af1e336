"""Hardware resolved: one and the same, whether a joint names a row of the catalogue or a standard designation."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import lru_cache
from typing import TYPE_CHECKING

from splitpin.hardware import reuse, tables, tools, torque
from splitpin.hardware.designation import Designation, Fault
from splitpin.hardware.parser import parse
from splitpin.hardware.torque import Torque
from splitpin.notices import NOWHERE, Place

if TYPE_CHECKING:
    from splitpin.records.catalogue import Hardware, Reuse
    from splitpin.records.library import Library

ROW_ID = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """What planning wants to know of one piece. Whole seconds a piece; `kind` is the id of a `[[kind]]` row."""

    id: str  # as typed
    title: str
    plural: str
    kind: str
    tools: tools.Needs
    off_s: int
    on_s: int
    log_spread: float
    reuse: Reuse
    uses: int | None
    reuse_reason: str
    part: str | None  # what goes on the pick list when it is renewed; perhaps not a row of the catalogue
    part_title: str | None
    consumables: tuple[str, ...]
    torque: Torque | None  # None where no rule may give one
    origin: str
    least_nm: float | None = None  # of a self-locking nut: measured first, renewed below it
    place: Place = NOWHERE


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
    found = _of_text(text)
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


@lru_cache(maxsize=4096)
def _of_text(text: str) -> Fixing | tuple[Fault, ...]:
    designation = parse(text)
    if not isinstance(designation, Designation):
        return designation
    try:
        needed = tools.needs(designation)
    except LookupError as missing:
        return (Fault(0, max(len(text), 1), str(missing), "name a [[hardware]] row with its own tools"),)
    standard = designation.means
    pace = "hexagon-pair" if designation.mate else standard.pace
    times = tables.index("times", "pace")[(pace,)]
    rule = reuse.rule(designation.mate if designation.mate and designation.mate.means.reuse != "plain" else designation)
    part, part_title = _part(designation, rule.reuse)
    found = torque.tightening(designation)
    return Fixing(
        id=text,
        title=f"{standard.title} {_measure(designation)}{' with nut' if designation.mate else ''}",
        plural=f"{standard.plural} {_measure(designation)}{' with nuts' if designation.mate else ''}",
        kind=standard.kind,
        tools=needed,
        off_s=int(times["off_s"]),
        on_s=int(times["on_s"]),
        log_spread=float(times["log_spread"]),
        reuse=rule.reuse,
        uses=rule.uses,
        reuse_reason=rule.reason,
        part=part,
        part_title=part_title,
        consumables=(),
        torque=found if isinstance(found, Torque) else None,
        origin=f"{standard.source}; times: {tables.origin(times)}",
        least_nm=rule.least_nm,
    )


def _measure(designation: Designation) -> str:
    size = designation.size.replace(" x ", " × ")
    unit = " mm" if designation.means.thread in ("tube", "ring", "tab") else ""
    return f"{size} × {designation.second}{unit}" if designation.second else f"{size}{unit}"


def _part(designation: Designation, rule: Reuse) -> tuple[str | None, str | None]:
    if rule == "reusable":
        return None, None
    if designation.means.drive == "compression":
        return f"olive-{designation.size}", f"olive {designation.size} mm"
    piece = designation.mate if designation.mate and designation.mate.means.reuse != "plain" else designation.alone
    name = re.sub(r"[^a-z0-9]+", "-", str(piece).lower()).strip("-")
    return name, f"{piece.means.title} {_measure(piece)}"


def _with_known_tools(fixing: Fixing, library: Library) -> Fixing | tuple[Fault, ...]:
    known = tuple(tuple(tool for tool in choice if tool in library.tools) for choice in fixing.tools)
    for choice, kept in zip(fixing.tools, known, strict=True):
        if not kept:
            message = f"the catalogue has no tool for this: it takes {' or '.join(choice)}"
            return (Fault(0, len(fixing.id), message, "add it to tools.toml"),)
    return replace(fixing, tools=known)
