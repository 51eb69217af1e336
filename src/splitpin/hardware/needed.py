"""The tools that a designation asks for.

A screw with its nut takes two: one for the head, one to hold the nut. Where sources or editions leave the size open,
each size is an entry of its own: both go in the bag.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin.hardware import sizes, tables
from splitpin.hardware.standard import standards

if TYPE_CHECKING:
    from splitpin.hardware.designation import Designation
    from splitpin.hardware.tools import Needs

TWO_SPANNERS: Needs = (("adjustable-spanner",), ("adjustable-spanner-second",))
PLAIN_NEEDS: dict[str, Needs] = {
    "hand": (),
    "tab-washer": (("combination-pliers", "water-pump-pliers"),),
    "split-pin": (("combination-pliers", "side-cutters", "long-nose-pliers"),),
    "o-ring": (("plastic-pick",),),
    "tab": (("long-nose-pliers",),),
    "union": TWO_SPANNERS,
    "compression": TWO_SPANNERS,
}


def _id(prefix: str, size: str) -> str:
    return f"{prefix}-{size.replace('.', '-')}"


def needs(designation: Designation) -> Needs:
    """What undoes and remakes one piece; empty: by hand. Rings beyond every plier known raise `LookupError`."""
    own = _own(designation)
    if designation.mate is None:
        return own
    held = tuple(tuple(reversed(choice)) for choice in _own(designation.mate))  # a spanner holds better than a socket
    return own + held


def _own(designation: Designation) -> Needs:
    standard = designation.means
    if standard.drive in PLAIN_NEEDS:
        return PLAIN_NEEDS[standard.drive]
    if standard.drive == "retaining-ring":
        return (ring_pliers(standard.series, designation.diameter),)
    rows = [sizes.tool_row(standard, designation.diameter)]
    if designation.other:
        rows.append(sizes.tool_row(standards()[designation.other], designation.diameter))
    found = [need for row in rows for need in _of_row(standard.drive, row, designation.recess)]
    return tuple(dict.fromkeys(found))


def _of_row(drive: str, row: tables.Row, recess: str) -> list[tuple[str, ...]]:
    if drive == "hexagon":
        return [(_id("socket", size), _id("spanner", size)) for size in (row["flats_mm"], row["or_mm"]) if size]
    if drive == "hex-socket":
        return [(_id("hex-key", row["key_mm"]),)]
    if drive == "slot":
        return [tuple(_id("driver-slot", size) for size in (row["blade_mm"], row["or_blade_mm"]) if size)]
    prefix = {"six-lobe": "driver-tx", "H": "driver-ph", "Z": "driver-pz"}[recess if drive == "cross" else drive]
    return [(_id(prefix, number),) for number in (row["number"], row["or_number"]) if number]


def ring_pliers(side: str, d_mm: float) -> tuple[str, ...]:
    """The circlip pliers (`external`, `internal`) that reach a shaft or bore of `d_mm`, narrowest range first.

    Raises `LookupError` where none reaches it.
    """
    reach = [
        (float(row["to_mm"]) - float(row["from_mm"]), row["tool"])
        for row in tables.rows("ring_pliers")
        if row["side"] == side and float(row["from_mm"]) <= d_mm <= float(row["to_mm"])
    ]
    if not reach:
        raise LookupError(f"no {side} circlip pliers known for {d_mm:g} mm")
    return tuple(tool for _, tool in sorted(reach))
