"""A fixing as plain text: its tools, sizes, torque, re-use rule, times and source; or why its designation is none."""

from splitpin.hardware.designation import Designation
from splitpin.hardware.facts import facts
from splitpin.hardware.fault import Fault
from splitpin.hardware.fixing import Fixing
from splitpin.hardware.given import Torque
from splitpin.hardware.tools import driver_limits, too_weak, torque_tools
from splitpin.hardware.torque import NoTorque
from splitpin.records.library import Library


def hardware_text(fixing: Fixing, meant: Designation | None, torque: Torque | NoTorque, library: Library) -> str:
    """The fixing; `meant` is what its designation says, where it is no row of the catalogue."""
    return "\n".join(_lines(fixing, meant, torque, library))


def fault_text(text: str, fault: Fault) -> str:
    """A fault of a designation under the text in which it stands."""
    head, caret = fault.marked(text).split("\n")
    return f"error[bad-designation]: {fault.message}\n  hint: {fault.hint}\n    {head}\n    {caret}"


def _title(tool: str, library: Library) -> str:
    return library.tools[tool].title if tool in library.tools else tool


def _lines(fixing: Fixing, meant: Designation | None, torque: Torque | NoTorque, library: Library) -> list[str]:
    lines = [str(meant) if meant else fixing.id, f"  {fixing.title}", "", "Tools, one of each line"]
    lines += [f"  {' or '.join(_title(tool, library) for tool in choice)}" for choice in fixing.tools] or ["  by hand"]
    for limit in driver_limits(fixing.tools):
        band = f"{limit.low_nm:g} to {limit.high_nm:g} N·m"
        lines.append(f"  {_title(limit.tool, library)} stands {band} [{limit.source}]")
    if meant:
        lines += ["", "Sizes"]
        lines += [f"  {one.name}: {one.value}" + (f" [{one.source}]" if one.source else "") for one in facts(meant)]
    lines += ["", "Torque", *_torque(fixing, torque, library)]
    lines += ["", "Back again", f"  {fixing.reuse}: {fixing.reuse_reason}"]
    if fixing.part:
        lines.append(f"  on the pick list: {fixing.part_title or fixing.part}")
    times = f"  off {fixing.off_s} s, on {fixing.on_s} s, log-spread {fixing.log_spread:g}"
    return [*lines, "", "Time for one piece", times, "", "Source", f"  {fixing.origin}"]


def _torque(fixing: Fixing, torque: Torque | NoTorque, library: Library) -> list[str]:
    if isinstance(torque, NoTorque):
        return [f"  none: {torque.reason}"]
    band = "" if torque.low_nm is None else f" ({torque.low_nm:g} to {torque.high_nm:g})"
    weak = [f"  warning: more than {_title(one.tool, library)} stands" for one in too_weak(fixing.tools, torque.nm)]
    reach = [_title(tool, library) for tool in torque_tools(torque.nm, library.tools)]
    with_what = [f"  with: {' or '.join(reach)}"] if reach else []
    return [f"  {torque.nm:g} N·m{band}", f"  {torque.basis}", *with_what, *weak]
