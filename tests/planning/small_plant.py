"""A made-up pump set that uses every rule of the definitions once, and a plan for one job on it, written by hand.

Behind a casing (which forms the room seal and guards the mains) a control tray swings aside; behind that sits a pump
block on a water union, with a mains plug; a sensor is carried by the block and comes off only once the block is out.
The job replaces the sensor and looks at the block. Figures are the test's own.
"""

import tomllib
from dataclasses import dataclass, replace
from typing import Any

from tests.planning.usual import USUAL_WORK

from splitpin.records.assembly import Assembly
from splitpin.records.catalogue import CatalogueFile
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Library, Visit
from splitpin.records.plan import (
    Licence,
    Opened,
    OpenedComponent,
    Plan,
    PlanCondition,
    PlanPart,
    PlanProof,
    PlanReading,
    PlanTool,
    Step,
    StepCaution,
    Times,
)
from splitpin.records.procedure import CautionsFile, ConditionsFile, LimitsFile, ProofsFile

ASSEMBLY = """
format = 1
[assembly]
id = "pump-set"
title = "Pump set"
positions = ["front"]

[[circuit]]
id = "primary"
medium = "water"
isolate = [{ by = "drain-cock", makes = "drained" }, { by = "valves", makes = "valved-off" }]
[[circuit]]
id = "supply"
medium = "mains"
isolate = [{ by = "isolator", makes = "dead" }]

[[component]]
id = "casing"
title = "casing"
role = "cover"
mass_kg = 3
basis = "from memory"
position = "front"
forms = ["room-seal"]
guards = ["mains"]
[[component]]
id = "tray"
title = "control tray"
role = "control"
position = "front"
cautions = ["sharp-edges"]
way = [{ ends = "aside", undoes = ["tray-latch"], behind = ["casing"], off_s = 5, on_s = 6, basis = "from memory" }]
[[component]]
id = "block"
title = "pump block"
role = "pump"
mass_kg = 6
basis = "from memory"
position = "front"
behind = ["tray"]
part = "new-block"
proves = ["function"]
[component.work.inspect]
needs = "exposed"
min = { low = 1, mode = 2, high = 3 }
steps = ["Look at the block for drips."]
conditions = ["dead"]
basis = "from memory"
[[component]]
id = "sensor"
title = "sensor"
role = "sensor"
position = "front"
behind = ["block"]
carried_by = "block"
part = "new-sensor"
[[component]]
id = "badge"
title = "badge"
role = "badge"
position = "front"

[[joint]]
id = "casing-screws"
between = ["casing", "frame"]
hardware = "screw"
count = 2
position = "front"
[[joint]]
id = "tray-latch"
between = ["tray", "frame"]
hardware = "clip"
position = "front"
behind = ["casing"]
[[joint]]
id = "tray-plug"
between = ["tray", "block"]
hardware = "plug"
circuit = "supply"
position = "front"
behind = ["casing"]
[[joint]]
id = "union"
between = ["block", "frame"]
hardware = "union"
circuit = "primary"
seal = "fibre-washer"
position = "front"
behind = ["tray"]
[[joint]]
id = "block-screws"
between = ["block", "frame"]
hardware = "screw"
count = 4
position = "front"
behind = ["tray"]
[[joint]]
id = "sensor-clip"
between = ["sensor", "block"]
hardware = "spring-clip"
circuit = "primary"
seal = "o-ring"
seal_count = 2
position = "front"
behind = ["tray"]
[[joint]]
id = "badge-clip"
between = ["badge", "frame"]
hardware = "clip"
position = "front"
"""

CATALOGUE = """
format = 1
kind = [
  { id = "plug", undo = "Unplug", remake = "Plug in", rank = 0, basis = "from memory" },
  { id = "pipe", undo = "Undo", remake = "Make up", rank = 1, basis = "from memory" },
  { id = "fixing", undo = "Undo", remake = "Drive in", rank = 3, basis = "from memory" },
]
tool = [
  { id = "driver", title = "driver" },
  { id = "spanner-30", title = "spanner 30" },
  { id = "grips", title = "grips" },
  { id = "tester", title = "voltage tester" },
]
medium = [
  { id = "water", title = "water", before_opening = ["cool"], after_remaking = ["leak-check"], cautions = ["heat"] },
  { id = "mains", title = "mains", after_remaking = ["earth-continuity"], licence = "electrician" },
]
boundary = [{ id = "room-seal", title = "room seal", after_remaking = ["seal-check"] }]
licence = [{ id = "electrician", person = "a qualified electrician" }]
handling = [
  { up_to_kg = 5, off_s = 10, on_s = 12, people = 1, basis = "from memory" },
  { up_to_kg = 25, off_s = 20, on_s = 30, people = 1, basis = "from memory" },
]
[[hardware]]
id = "screw"
title = "screw"
kind = "fixing"
tools = ["driver"]
off_s = 6
on_s = 8
log_spread = 0.2
reuse = "reusable"
basis = "from memory"
[[hardware]]
id = "clip"
title = "clip"
kind = "fixing"
off_s = 2
on_s = 2
log_spread = 0.2
reuse = "reusable"
basis = "from memory"
[[hardware]]
id = "plug"
title = "plug"
kind = "plug"
off_s = 4
on_s = 5
log_spread = 0.2
reuse = "reusable"
basis = "from memory"
[[hardware]]
id = "union"
title = "union nut"
kind = "pipe"
tools = [["spanner-30", "grips"]]
off_s = 20
on_s = 25
log_spread = 0.2
reuse = "reusable"
basis = "from memory"
[[hardware]]
id = "spring-clip"
title = "spring clip"
kind = "pipe"
tools = ["grips"]
off_s = 8
on_s = 9
log_spread = 0.2
reuse = "renew"
part = "new-clip"
consumables = ["grease"]
basis = "from memory"
[[seal]]
id = "fibre-washer"
title = "fibre washer"
policy = "renew"
seconds = 10
basis = "from memory"
[[seal]]
id = "o-ring"
title = "O-ring"
policy = "renew"
placed = "before-positioning"
part = "ring-18"
seconds = 15
basis = "from memory"
"""

CONDITIONS = """
format = 1
[[condition]]
id = "dead"
title = "electrically dead"
confirm = "Prove dead."
release_after = ["earth-continuity", "drained"]
make = [
  { text = "Switch off and lock.", min = 1, basis = "from memory" },
  { text = "Prove dead.", min = 1, tools = ["tester"], cautions = ["shock"], basis = "from memory" },
]
release = [{ text = "Switch on.", min = 0.5, basis = "from memory" }]
[[condition]]
id = "cool"
title = "cool"
after = ["dead"]
confirm = "Feel that it is cool."
make = [{ text = "Leave it to cool.", min = 0.5, wait_min = 10, basis = "from memory" }]
[[condition]]
id = "drained"
title = "drained"
after = ["dead"]
excludes = ["valved-off"]
confirm = "Open the drain cock: nothing comes."
make = [{ text = "Open the drain cock.", min = 1, wait_min = 5, basis = "from memory" }]
release = [{ text = "Fill and vent.", min = 4, wait_min = 1, basis = "from memory" }]
[[condition]]
id = "valved-off"
title = "valved off"
confirm = "Try both valves."
make = [{ text = "Close both valves.", min = 1, basis = "from memory" }]
release = [{ text = "Open both valves.", min = 1, basis = "from memory" }]
"""

PROOFS = """
format = 1
[[proof]]
id = "earth-continuity"
title = "earth continuity"
stage = "open"
plant = "dead"
held = ["dead"]
failure = "Remake the earth."
step = [{ text = "Measure the earth.", min = 2, tools = ["tester"], basis = "from memory" }]
reading = [{ id = "earth-ohm", title = "earth", unit = "ohm", limit = "earth-ohm" }]
[[proof]]
id = "leak-check"
title = "leak check"
stage = "open"
plant = "charged"
after = ["earth-continuity"]
failure = "Drain and remake the joint."
step = [{ text = "Look at the joints.", min = 2, wait_min = 3, basis = "from memory" }]
[[proof]]
id = "seal-check"
title = "room seal check"
stage = "closed"
plant = "dead"
failure = "Renew the casing seal."
step = [{ text = "Run a hand round the casing.", min = 1, basis = "from memory" }]
[[proof]]
id = "function"
title = "function"
stage = "live"
plant = "running"
failure = "Look for the fault."
step = [{ text = "Run it.", min = 3, basis = "from memory" }]
"""

CAUTIONS = """
format = 1
[[caution]]
id = "shock"
word = "DANGER"
hazard = "Mains voltage."
[[caution]]
id = "heat"
word = "WARNING"
hazard = "Hot water."
[[caution]]
id = "sharp-edges"
word = "CAUTION"
hazard = "Sharp edges."
"""

LIMITS = """
format = 1
[jurisdiction]
id = "here"
title = "Here"
[[limit]]
id = "earth-ohm"
unit = "ohm"
max = 0.5
valid_until = 2020-12-31
source = "the test's own old edition"
[[limit]]
id = "earth-ohm"
unit = "ohm"
max = 0.1
valid_from = 2021-01-01
source = "the test's own"
"""

JOB = """
format = 1
[job]
reference = "J1"
title = "Sensor"
assembly = "pump-set"
date = 2025-05-05
[[task]]
do = "replace"
component = "sensor"
[[task]]
do = "inspect"
role = "pump"
"""

FIRM = """
format = 1
[firm]
id = "firm"
title = "Firm"
jurisdiction = "here"
[times]
pickup_s = 0
move_s = 0
basis = "from memory"
"""


def visit(job: str = JOB, assembly: str = ASSEMBLY, conditions: str = CONDITIONS) -> Visit:
    """The job with everything it refers to; texts may be given with a line changed."""
    rows = CatalogueFile.model_validate(tomllib.loads(CATALOGUE))
    plant = Assembly.model_validate(tomllib.loads(assembly))
    limits = LimitsFile.model_validate(tomllib.loads(LIMITS))
    library = Library(
        assemblies={plant.assembly.id: plant},
        kinds={row.id: row for row in rows.kind},
        hardware={row.id: row for row in rows.hardware},
        seals={row.id: row for row in rows.seal},
        tools={row.id: row for row in rows.tool},
        media={row.id: row for row in rows.medium},
        boundaries={row.id: row for row in rows.boundary},
        licences={row.id: row for row in rows.licence},
        handling=rows.handling,
        usual_work=USUAL_WORK,
        conditions={row.id: row for row in ConditionsFile.model_validate(tomllib.loads(conditions)).condition},
        proofs={row.id: row for row in ProofsFile.model_validate(tomllib.loads(PROOFS)).proof},
        cautions={row.id: row for row in CautionsFile.model_validate(tomllib.loads(CAUTIONS)).caution},
        limits={limits.jurisdiction.id: limits},
    )
    return Visit(JobFile.model_validate(tomllib.loads(job)), FirmFile.model_validate(tomllib.loads(FIRM)), library)


@dataclass(frozen=True)
class Line:
    """A step before it has its number and its start. `waits_for` names lines whose waits must be over."""

    name: str
    fields: dict[str, Any]
    waits_for: tuple[str, ...] = ()

    def but(self, **fields: Any) -> "Line":
        """The same line with other fields."""
        return replace(self, fields={**self.fields, **fields})


def _line(name: str, seconds: int, phase: str, waits_for: tuple[str, ...] = (), **fields: Any) -> Line:
    action, _, thing = name.partition(" ")
    kinds = {"make": "condition", "release": "condition", "prove": "proof", "take": "component", "fit": "component",
             "work": "component"}  # fmt: skip
    fields = {"text": name, "position": "front", **fields, "phase": phase, "action": action, "seconds": seconds}
    if action != "record":
        fields[kinds.get(action, "joint")] = thing.split("/")[0]
    return Line(name, fields, waits_for)


def _said(name: str, word: str, text: str) -> tuple[StepCaution, ...]:
    return (StepCaution(id=name, word=word, text=text),)


LINES = (
    _line("make dead/1", 60, "make-safe", text="Switch off and lock."),
    _line("make dead/2", 60, "make-safe", text="Prove dead.", tools=("tester",),
          cautions=_said("shock", "DANGER", "Mains voltage.")),
    _line("make cool", 30, "make-safe", text="Leave it to cool.", wait_s=600),
    _line("make drained", 60, "make-safe", text="Open the drain cock.", wait_s=300),
    _line("undo casing-screws", 12, "strip", tools=("driver",)),
    _line("take casing", 10, "strip"),
    _line("undo tray-latch", 2, "strip"),
    _line("take tray", 5, "strip", cautions=_said("sharp-edges", "CAUTION", "Sharp edges.")),
    _line("work block", 120, "work", text="Look at the block for drips."),
    _line("undo tray-plug", 4, "strip"),
    _line("undo union", 20, "strip", ("make cool", "make drained"), tools=("grips",),
          cautions=_said("heat", "WARNING", "Hot water.")),
    _line("undo block-screws", 24, "strip", tools=("driver",)),
    _line("take block", 20, "strip"),
    _line("undo sensor-clip", 8, "strip", position="bench", tools=("grips",)),
    _line("take sensor", 0, "strip", position="bench"),
    _line("seal sensor-clip", 15, "refit", position="bench", seals=("o-ring",)),
    _line("fit sensor", 0, "refit", position="bench"),
    _line("remake sensor-clip", 9, "refit", position="bench", tools=("grips",)),
    _line("fit block", 30, "refit"),
    _line("remake block-screws", 32, "refit", tools=("driver",)),
    _line("seal union", 10, "refit", seals=("fibre-washer",)),
    _line("remake union", 25, "refit", tools=("grips",)),
    _line("remake tray-plug", 5, "refit"),
    _line("prove earth-continuity", 120, "prove", text="Measure the earth.", tools=("tester",)),
    _line("release drained", 240, "release", text="Fill and vent.", wait_s=60),
    _line("prove leak-check", 120, "prove", ("release drained",), text="Look at the joints.", wait_s=180),
    _line("fit tray", 6, "refit", ("prove leak-check",)),
    _line("remake tray-latch", 2, "refit"),
    _line("fit casing", 12, "refit"),
    _line("remake casing-screws", 16, "refit", tools=("driver",)),
    _line("prove seal-check", 60, "prove", text="Run a hand round the casing."),
    _line("release dead", 30, "release", text="Switch on."),
    _line("prove function", 180, "prove", text="Run it."),
    _line("record", 60, "hand-over"),
)  # fmt: skip


def steps_of(lines: tuple[Line, ...]) -> tuple[Step, ...]:
    """The lines numbered, each begun as soon as the hands are free and the waits it names are over."""
    free, over, steps = 0, dict[str, int](), []
    for number, line in enumerate(lines, start=1):
        start = max([free, *(over.get(name, 0) for name in line.waits_for)])
        step = Step(n=number, start_s=start, **line.fields)
        free = start + step.seconds
        over[line.name] = free + step.wait_s
        steps.append(step)
    return tuple(steps)


def plan_of(lines: tuple[Line, ...] = LINES, **fields: Any) -> Plan:
    """The hand-written plan with these lines, its sums taken from them, and its lists as they are."""
    steps = steps_of(lines)
    hands_on, elapsed = sum(step.seconds for step in steps), steps[-1].start_s + steps[-1].seconds
    whole: dict[str, Any] = {
        "splitpin": "0",
        "job": "J1",
        "title": "Sensor",
        "assembly": "pump-set",
        "assembly_title": "Pump set",
        "status": "proved",
        "gap_s": 0,
        "tasks": ("replace the sensor", "inspect the pump block"),
        "conditions": tuple(PlanCondition(id=name, title=name) for name in ("dead", "cool", "drained")),
        "steps": steps,
        "opened": Opened(
            components=tuple(
                OpenedComponent(id=name, title=name, ends="aside" if name == "tray" else "out")
                for name in ("casing", "tray", "block", "sensor")
            ),
            joints=("casing-screws", "tray-latch", "tray-plug", "union", "block-screws", "sensor-clip"),
            circuits=("supply", "primary"),
        ),
        "tools": tuple(PlanTool(id=name, title=name) for name in ("driver", "grips", "tester")),
        "parts": (
            PlanPart(part="new-sensor", title="sensor", quantity=1, kind="replace", certain=True),
            PlanPart(part="fibre-washer", title="washer", quantity=1, kind="seal", certain=True),
            PlanPart(part="ring-18", title="ring", quantity=2, kind="seal", certain=True),
            PlanPart(part="new-clip", title="clip", quantity=1, kind="single-use", certain=True),
            PlanPart(part="grease", title="grease", quantity=1, kind="consumable", certain=True),
        ),
        "proofs": (
            _proof("earth-continuity", "open", "Remake the earth.", ("tray-plug",), PlanReading(
                id="earth-ohm", title="earth", unit="ohm", max=0.1, source="the test's own")),
            _proof("leak-check", "open", "Drain and remake the joint.", ("union", "sensor-clip")),
            _proof("seal-check", "closed", "Renew the casing seal."),
            _proof("function", "live", "Look for the fault."),
        ),
        "times": Times(hands_on_s=hands_on, waiting_s=elapsed - hands_on, elapsed_s=elapsed),
        "people": 1,
        "licences": (
            Licence(
                id="electrician",
                person="a qualified electrician",
                steps=tuple(step.n for step in steps if step.joint == "tray-plug"),
            ),
        ),
    }  # fmt: skip
    return Plan(**{**whole, **fields})


def _proof(name: str, stage: str, failure: str, joints: tuple[str, ...] = (), *readings: PlanReading) -> PlanProof:
    return PlanProof(id=name, title=name, stage=stage, joints=joints, readings=readings, failure=failure)
