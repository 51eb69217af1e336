"""Joints whose hardware cannot be resolved, as notices: what reading cannot know, because it stands below this room."""

from splitpin.hardware.fixing import Fixing, resolve
from splitpin.notices import Notice, in_order
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
