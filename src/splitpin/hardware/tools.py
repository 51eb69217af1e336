"""What drivers stand, which tools reach a torque, and the choice among the tools that a firm owns.

Every entry of a need is wanted at once; an entry is a choice of tool ids, best first.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from splitpin.hardware import tables

if TYPE_CHECKING:
    from splitpin.records.catalogue import Tool

Needs = tuple[tuple[str, ...], ...]


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
        tool = f"driver-tx-{row['number']}"
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
