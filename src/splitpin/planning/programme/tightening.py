"""How a joint is closed: its torque with where that comes from, the lines that tighten it, what its tools cannot do."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from splitpin import units
from splitpin.hardware.fixing import Fixing
from splitpin.hardware.given import Torque, given
from splitpin.hardware.tools import too_weak
from splitpin.notices import Notice
from splitpin.planning.plant import elements
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme import wording
from splitpin.planning.programme.acts import Line

if TYPE_CHECKING:
    from splitpin.records.assembly import Joint

MEASURE_S = 30  # to measure one self-locking nut as it runs on: common practice, no source


def torque_of(joint: Joint) -> Torque | None:
    """The torque given for a joint; else the computed one, where the joint says that its thread is in steel.

    A designation does not say what the thread is cut into, so without that word of the joint nothing is computed.
    """
    if joint.torque_nm is not None:
        return given(joint.torque_nm, joint.torque_source)
    if joint.into != "steel":
        return None
    from splitpin.hardware.designation import Designation
    from splitpin.hardware.parser import parse
    from splitpin.hardware.torque import tightening  # few joints say so: a plan starts sooner without

    designation = parse(joint.hardware)
    found = tightening(designation, into="steel") if isinstance(designation, Designation) else None
    return found if isinstance(found, Torque) else None


def lines(joint: Joint, plant: Plant) -> tuple[Line, ...]:
    """The lines that close a joint, its seconds spread over them; the torque and its reason stand on the last.

    Self-locking nuts are measured first, in a line of its own with a blank to fill in.
    """
    fixing = plant.fixing(joint)
    torque = torque_of(joint)
    nm = None if torque is None else torque.nm
    texts: tuple[str, ...] = (wording.remake(joint, plant),)
    if joint.pattern is not None and joint.count > 1:
        texts = wording.tighten(joint, nm, plant)
    share, rest = divmod(elements.remake_seconds(joint, fixing), len(texts))
    tools = (*plant.chosen(fixing.tools), *plant.torque_tools(nm))
    last = len(texts) - 1
    tightened = (
        Line(
            "remake",
            text,
            share + (rest if number == 0 else 0),
            tools=() if number < min(last, 1) else tools,  # several pieces are started by hand
            consumables=fixing.consumables if number == 0 else (),
            torque_nm=nm if number == last else None,
            because=(_reason(joint, torque),) if torque is not None and number == last else (),
        )
        for number, text in enumerate(texts)
    )
    return (*_measured(joint, fixing, plant), *tightened)


def _measured(joint: Joint, fixing: Fixing, plant: Plant) -> tuple[Line, ...]:
    if fixing.least_nm is None:
        return ()
    line = Line(
        "remake",
        wording.measure(joint, fixing.least_nm, plant),
        MEASURE_S * joint.count,
        tools=plant.torque_tools(fixing.least_nm),
        record="running-on torque of each nut, N·m",
        because=(fixing.reuse_reason,),
    )
    return (line,)


def _reason(joint: Joint, torque: Torque) -> str:
    spread = ""
    if torque.low_nm is not None and torque.high_nm is not None:
        spread = f" ({units.number(torque.low_nm)} to {units.number(torque.high_nm)})"
    return wording.cite(f"{units.number(torque.nm)} N·m{spread}: {torque.basis}", joint.place)


def notices(joints: Iterable[Joint], plant: Plant) -> list[Notice]:
    """Drivers that do not stand the torque of their joint, and torques that no tool of the catalogue sets."""
    found = []
    for joint in joints:
        torque = torque_of(joint)
        if torque is None:
            continue
        ends, aim = plant.ends(joint), f"{units.number(torque.nm)} N·m"
        for limit in too_weak(tuple((tool,) for tool in plant.chosen(plant.fixing(joint).tools)), torque.nm):
            title = plant.library.tools[limit.tool].title
            stands = f"{units.number(limit.low_nm)} to {units.number(limit.high_nm)} N·m"
            message = f"{ends}: {aim} is more than the {title} stands ({stands})"
            found.append(Notice("driver-too-weak", message, joint.place, f"check the torque; limit: {limit.source}"))
        if not plant.torque_tools(torque.nm):
            message = f"{ends}: no torque tool of the catalogue sets {aim}"
            found.append(Notice("no-torque-tool", message, joint.place, "bring one whose range holds it"))
    return found
