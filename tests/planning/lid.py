"""A lid on a pot, held by whatever joints a test gives it, with the catalogue's own tools, kinds, parts and seals."""

import tomllib
from dataclasses import replace

from tests.bundled import LIBRARY

from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.records.assembly import Assembly
from splitpin.records.catalogue import Part, Seal
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import Plan, Step

ASSEMBLY = """
format = 1
[assembly]
id = "pot"
title = "pot"
positions = ["front"]
frame = "pot"
[[component]]
id = "lid"
title = "lid"
role = "cover"
mass_kg = 1
basis = "from memory"
position = "front"
[component.work.inspect]
needs = "out"
min = { low = 1, mode = 1, high = 1 }
steps = ["Look at the lid."]
basis = "from memory"
"""

JOINT = """
[[joint]]
id = "joint-{number}"
between = ["lid", "frame"]
position = "front"
"""

JOB = """
format = 1
[job]
reference = "T"
title = "lid"
assembly = "pot"
[[task]]
do = "inspect"
component = "lid"
"""


def visit(
    *joints: str, owned: tuple[str, ...] | None = None, seals: tuple[Seal, ...] = (), parts: tuple[Part, ...] = ()
) -> Visit:
    """The lid to be looked at. Each joint is its keys as TOML beside `id`, `between` and `position`."""
    text = ASSEMBLY + "".join(JOINT.format(number=n) + joint + "\n" for n, joint in enumerate(joints, start=1))
    firm: dict[str, object] = {
        "format": 1,
        "firm": {"id": "firm", "title": "firm", "jurisdiction": "gb"},
        "times": {"pickup_s": 5, "move_s": 5, "basis": "common practice"},
    }
    if owned is not None:
        firm["tools"] = {"owned": list(owned)}
    rows = replace(
        LIBRARY,
        assemblies={"pot": Assembly.model_validate(tomllib.loads(text))},
        seals={**LIBRARY.seals, **{seal.id: seal for seal in seals}},
        parts={**LIBRARY.parts, **{part.id: part for part in parts}},
    )
    return Visit(JobFile.model_validate(tomllib.loads(JOB)), FirmFile.model_validate(firm), rows)


def planned(subject: Visit) -> Plan:
    """The plan, which the independent check accepts."""
    plan = plan_visit(subject).plan
    assert check_plan(plan, subject) == ()
    return plan


def closing(plan: Plan, joint: str = "joint-1") -> list[Step]:
    """The steps that close a joint, in order."""
    return [step for step in plan.steps if step.action == "remake" and step.joint == joint]


def codes(plan: Plan) -> list[str]:
    """The codes of the plan's notices."""
    return [notice.code for notice in plan.notices]
