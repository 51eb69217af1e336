"""The tools a designation asks for, what their drivers stand, and the choice among those that a firm owns.

Every entry of a need is wanted at once; an entry is a choice of tool ids, best first. A screw with its nut takes two:
one for the head, one to hold the nut. Where sources or editions leave the size open, each size is an entry of its
own: both go in the bag.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from splitpin.hardware import sizes, tables
from splitpin.hardware.designation import Designation
from splitpin.hardware.standard import standards

if TYPE_CHECKING:
    from splitpin.records.catalogue import Tool

Needs = tuple[tuple[str, ...], ...]

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


@dataclass(frozen=True, slots=True)
class DriverLimit:
    """The torque band, N m, in which a driver's own tip is at its limit; with its source."""

    tool: str
    low_nm: float
    high_nm: float
    source: str


def driver_limits(needed: Needs) -> tuple[DriverLimit, ...]:
    """The limits known for the tools of a need: those of six-lobe drivers; no table of the other tools was found."""
    found = []
    for row in tables.rows("hexalobular_drivers"):
        tool = _id("driver-tx", row["number"])
        if row["limit_low_nm"] and any(tool in choice for choice in needed):
            source = f"ISO 10664 socket {row['number']}; {row['limit_source']}"
            found.append(DriverLimit(tool, float(row["limit_low_nm"]), float(row["limit_high_nm"]), source))
    return tuple(found)


def too_weak(needed: Needs, torque_nm: float) -> tuple[DriverLimit, ...]:
    """The drivers of a need whose limit (the low end of its band) a torque of `torque_nm` > 0 exceeds: warn."""
    return tuple(limit for limit in driver_limits(needed) if torque_nm > limit.low_nm)


def torque_tools(torque_nm: float, tools: Mapping[str, Tool]) -> tuple[str, ...]:
    """The torque wrenches and drivers among these tools whose range holds a torque: narrowest first, then by id."""
    reach = [
        (tool.max_nm - (tool.min_nm or 0.0), name)
        for name, tool in tools.items()
        if tool.max_nm is not None and (tool.min_nm or 0.0) <= torque_nm <= tool.max_nm
    ]
    return tuple(name for _, name in sorted(reach))


@dataclass(frozen=True, slots=True)
class Choice:
    """Tools in the order of the entries: `chosen` from what is owned, `missing` where nothing owned would do."""

    chosen: tuple[str, ...]
    missing: tuple[str, ...]


def choose(needed: Needs, owned: Collection[str] | None) -> Choice:
    """Tools for every entry out of those owned (None: everything is), no tool used for two entries.

    As many entries as possible are met; among those choices the one best in the order of entries, then of preference.
    An entry that stays open names its best tool as missing. Cost: the product of the lengths of the choices; needs
    have at most four entries of at most three.
    """
    owned_of = [tuple(tool for tool in choice if owned is None or tool in owned) for choice in needed]
    best: tuple[str | None, ...] = (None,) * len(needed)
    for picked in product(*[(*choice, None) for choice in owned_of]):
        used = [tool for tool in picked if tool is not None]
        if len(used) == len(set(used)) and picked.count(None) < best.count(None):
            best = picked
    chosen = tuple(tool for tool in best if tool is not None)
    missing = tuple(choice[0] for choice, tool in zip(needed, best, strict=True) if tool is None)
    return Choice(chosen, missing)
