"""Joints and seals whose sizes cannot be resolved."""

from collections.abc import Iterator

from splitpin.hardware.fixing import Fixing
from splitpin.hardware.oring import ORing, of_size
from splitpin.hardware.resolving import ROW_ID, resolve
from splitpin.notices import Notice
from splitpin.records.assembly import Assembly
from splitpin.records.library import Library


def unreadable(assembly: Assembly, library: Library) -> Iterator[Notice]:
    """One `bad-designation` for each fault in the designations of an assembly, at its joint.

    What has the form of an id names a row, and is looked for with all other names. Cost: one `resolve` for each joint.
    """
    for joint in assembly.joint:
        resolved = () if ROW_ID.fullmatch(joint.hardware) else resolve(joint.hardware, library)
        if isinstance(resolved, Fixing):
            continue
        for fault in resolved:
            where = f"in `{joint.hardware}` of joint {joint.id}, at character {fault.offset + 1}"
            yield Notice("bad-designation", f"{where}: {fault.message}", joint.place, fault.hint)


def unreadable_seals(library: Library) -> Iterator[Notice]:
    """One `bad-designation` for each fault in the sizes of the seals. Cost: one look-up a seal."""
    for seal in library.seals.values():
        ring = of_size(seal.size) if seal.size is not None else ()
        for fault in () if isinstance(ring, ORing) else ring:
            where = f"in the size `{seal.size}` of seal {seal.id}, at character {fault.offset + 1}"
            yield Notice("bad-designation", f"{where}: {fault.message}", seal.place, fault.hint)
