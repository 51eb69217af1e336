"""`splitpin hardware`."""

from typing import Annotated

import typer

from splitpin.cli import exits
from splitpin.cli.arguments import AsJson
from splitpin.cli.saying import answer, answer_json
from splitpin.hardware.designation import Designation
from splitpin.hardware.facts import facts
from splitpin.hardware.fault import Fault
from splitpin.hardware.fixing import Fixing
from splitpin.hardware.given import Torque, given
from splitpin.hardware.parser import parse
from splitpin.hardware.resolving import resolve
from splitpin.hardware.tools import driver_limits, too_weak, torque_tools
from splitpin.hardware.torque import NoTorque, tightening
from splitpin.reading.library import read_library
from splitpin.records.library import Library
from splitpin.sheets.catalogue.hardware_text import fault_text, hardware_text


def run(
    designation: Annotated[
        str, typer.Argument(metavar="DESIGNATION", help="As 'ISO 4762 - M6 x 25 - 8.8', or a row of hardware.")
    ],
    torque_nm: Annotated[
        float | None, typer.Option("--torque", min=0.01, help="A torque given for the joint, N·m: it wins.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Look up a fixing: its tools, sizes, torque with basis, whether it goes back, and the sources."""
    library, _ = read_library(assemblies=())
    text = designation.strip()
    found = resolve(text, library)
    if not isinstance(found, Fixing):
        if as_json:
            answer_json({"designation": text, "errors": [_fault_as_json(fault) for fault in found]})
        else:
            typer.echo("\n".join(fault_text(text, fault) for fault in found), err=True)
        raise SystemExit(exits.ERRORS)
    parsed = None if text in library.hardware else parse(text)
    meant = None if isinstance(parsed, tuple) else parsed
    torque = NoTorque("give it on the joint") if meant is None else tightening(meant)
    if torque_nm is not None:
        torque = given(torque_nm, None)
    if as_json:
        answer_json(_as_json(found, meant, torque, library))
    else:
        answer(hardware_text(found, meant, torque, library))


def _fault_as_json(fault: Fault) -> dict[str, object]:
    return {"offset": fault.offset, "length": fault.length, "message": fault.message, "hint": fault.hint}


def _title(tool: str, library: Library) -> str:
    return library.tools[tool].title if tool in library.tools else tool


def _as_json(
    fixing: Fixing, meant: Designation | None, torque: Torque | NoTorque, library: Library
) -> dict[str, object]:
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
