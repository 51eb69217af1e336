"""`splitpin hardware`."""

from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from splitpin.hardware.designation import Designation
    from splitpin.hardware.fault import Fault
    from splitpin.hardware.fixing import Fixing
    from splitpin.hardware.given import Torque
    from splitpin.hardware.torque import NoTorque
    from splitpin.records.library import Library


def hardware(
    designation: Annotated[
        str, typer.Argument(metavar="DESIGNATION", help="As 'ISO 4762 - M6 x 25 - 8.8', or a row of hardware.")
    ],
    torque_nm: Annotated[
        float | None, typer.Option("--torque", min=0.01, help="A torque given for the joint, N·m: it wins.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON.")] = False,
) -> None:
    """Look up a fixing: its tools, sizes, torque with basis, whether it goes back, and the sources."""
    from splitpin.cli import exits
    from splitpin.cli.saying import answer, answer_json
    from splitpin.hardware.fixing import Fixing
    from splitpin.hardware.given import given
    from splitpin.hardware.parser import parse
    from splitpin.hardware.resolving import resolve
    from splitpin.hardware.torque import NoTorque, tightening
    from splitpin.reading.library import read_library

    library, _ = read_library(assemblies=())
    text = designation.strip()
    found = resolve(text, library)
    if not isinstance(found, Fixing):
        if as_json:
            answer_json({"designation": text, "errors": [_fault_as_json(fault) for fault in found]})
        else:
            typer.echo("\n".join(_fault(text, fault) for fault in found), err=True)
        raise SystemExit(exits.ERRORS)
    parsed = None if text in library.hardware else parse(text)
    meant = None if isinstance(parsed, tuple) else parsed
    torque = NoTorque("give it on the joint") if meant is None else tightening(meant)
    if torque_nm is not None:
        torque = given(torque_nm, None)
    if as_json:
        answer_json(_as_json(found, meant, torque, library))
    else:
        answer("\n".join(_text(found, meant, torque, library)))


def _fault(text: str, fault: "Fault") -> str:
    head, caret = fault.marked(text).split("\n")
    return f"error[bad-designation]: {fault.message}\n  hint: {fault.hint}\n    {head}\n    {caret}"


def _fault_as_json(fault: "Fault") -> dict[str, object]:
    return {"offset": fault.offset, "length": fault.length, "message": fault.message, "hint": fault.hint}


def _title(tool: str, library: "Library") -> str:
    return library.tools[tool].title if tool in library.tools else tool


def _text(fixing: "Fixing", meant: "Designation | None", torque: "Torque | NoTorque", library: "Library") -> list[str]:
    from splitpin.hardware.facts import facts
    from splitpin.hardware.tools import driver_limits

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


def _torque(fixing: "Fixing", torque: "Torque | NoTorque", library: "Library") -> list[str]:
    from splitpin.hardware.tools import too_weak, torque_tools
    from splitpin.hardware.torque import NoTorque

    if isinstance(torque, NoTorque):
        return [f"  none: {torque.reason}"]
    band = "" if torque.low_nm is None else f" ({torque.low_nm:g} to {torque.high_nm:g})"
    weak = [f"  warning: more than {_title(one.tool, library)} stands" for one in too_weak(fixing.tools, torque.nm)]
    reach = [_title(tool, library) for tool in torque_tools(torque.nm, library.tools)]
    with_what = [f"  with: {' or '.join(reach)}"] if reach else []
    return [f"  {torque.nm:g} N·m{band}", f"  {torque.basis}", *with_what, *weak]


def _as_json(
    fixing: "Fixing", meant: "Designation | None", torque: "Torque | NoTorque", library: "Library"
) -> dict[str, object]:
    from splitpin.hardware.facts import facts
    from splitpin.hardware.tools import driver_limits, too_weak, torque_tools
    from splitpin.hardware.torque import NoTorque

    return {
        "designation": str(meant) if meant else fixing.id,
        "title": fixing.title,
        "kind": fixing.kind,
        "tools": [[{"id": tool, "title": _title(tool, library)} for tool in choice] for choice in fixing.tools],
        "driver_limits": [
            {"tool": one.tool, "low_nm": one.low_nm, "high_nm": one.high_nm, "source": one.source}
            for one in driver_limits(fixing.tools)
        ],
        "sizes": [
            {"name": one.name, "value": one.value, "source": one.source} for one in (facts(meant) if meant else ())
        ],
        "torque": None
        if isinstance(torque, NoTorque)
        else {
            "nm": torque.nm,
            "low_nm": torque.low_nm,
            "high_nm": torque.high_nm,
            "basis": torque.basis,
            "tools": list(torque_tools(torque.nm, library.tools)),
            "more_than_stands": [one.tool for one in too_weak(fixing.tools, torque.nm)],
        },
        "no_torque": torque.reason if isinstance(torque, NoTorque) else None,
        "reuse": {"rule": fixing.reuse, "uses": fixing.uses, "reason": fixing.reuse_reason},
        "part": {"id": fixing.part, "title": fixing.part_title} if fixing.part else None,
        "seconds": {"off": fixing.off_s, "on": fixing.on_s, "log_spread": fixing.log_spread},
        "source": fixing.origin,
    }
