"""Joints and seals whose sizes cannot be resolved, as notices: reading stands below this room and cannot know."""

from __future__ import annotations

from typing import TYPE_CHECKING

from splitpin.hardware.fixing import Fixing
from splitpin.hardware.oring import ORing, of_size
from splitpin.hardware.resolving import resolve
from splitpin.notices import Notice, in_order

if TYPE_CHECKING:
    from splitpin.records.assembly import Assembly
    from splitpin.records.library import Library


def unreadable(assembly: Assembly, library: Library) -> tuple[Notice, ...]:
    """One `bad-designation` for each fault in the designations of an assembly, at its joint, in the usual order.

    Ids of hardware rows are reading's to check. Cost: one `resolve` for each joint.
    """
    found = []
    for joint in assembly.joint:
        resolved = () if joint.hardware in library.hardware else resolve(joint.hardware, library)
        if isinstance(resolved, Fixing):
            continue
        for fault in resolved:
            where = f"in `{joint.hardware}` of joint {joint.id}, at character {fault.offset + 1}"
            found.append(Notice("bad-designation", f"{where}: {fault.message}", joint.place, fault.hint))
    return in_order(found)


def unreadable_seals(library: Library) -> tuple[Notice, ...]:
    """One `bad-designation` for each fault in the sizes of the seals, in the usual order. Cost: one look-up a seal."""
    found = []
    for seal in library.seals.values():
        ring = of_size(seal.size) if seal.size is not None else ()
        for fault in () if isinstance(ring, ORing) else ring:
            where = f"in the size `{seal.size}` of seal {seal.id}, at character {fault.offset + 1}"
            found.append(Notice("bad-designation", f"{where}: {fault.message}", seal.place, fault.hint))
    return in_order(found)
