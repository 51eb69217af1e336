"""The fixing that a standard designation stands for: tools, times, re-use and torque by the tables of the standards."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from splitpin.hardware import needed, reuse, tables, torque
from splitpin.hardware.designation import Designation
from splitpin.hardware.fault import Fault
from splitpin.hardware.fixing import Fixing
from splitpin.hardware.given import Torque
from splitpin.hardware.parser import parse

if TYPE_CHECKING:
    from splitpin.records.catalogue import Reuse


def fixing_of(text: str) -> Fixing | tuple[Fault, ...]:
    """The fixing, or what is wrong with the text by place. Cost: parsing and a few look-ups."""
    designation = parse(text)
    if not isinstance(designation, Designation):
        return designation
    try:
        entries = needed.needs(designation)
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
        tools=entries,
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
