"""A made-up pump unit that every law has something to say about, and a plan for one job on it that keeps them all.

Behind a casing, which forms a seal, sits a pump under a terminal cover: a union on the water circuit, two cores, a
bracket that bears its weight. On the roof above it hangs a filter that catches its dirt. A sealed box beside the pump
is closed to the engineer. The job replaces the pump and cleans the filter. Figures are the test's own.
"""

import tomllib
from dataclasses import replace
from functools import cache
from typing import Any

from tests.planning.small_plant import Line, steps_of
from tests.planning.usual import USUAL_WORK

from splitpin.records.assembly import Assembly
from splitpin.records.catalogue import CatalogueFile
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Library, Visit
from splitpin.records.plan import (
    Brought,
    Licence,
    Opened,
    OpenedComponent,
    Plan,
    PlanCondition,
    PlanFunction,
    PlanPart,
    PlanProof,
    PlanReading,
    PlanTool,
    PlanWay,
    StepAct,
    StepCaution,
    StepPoint,
    StopLine,
    Times,
)
from splitpin.records.procedure import CautionsFile, ConditionsFile, FactsFile, LimitsFile, ProofsFile

ASSEMBLY = """
format = 1
[assembly]
id = "pump-unit"
title = "Pump unit"
positions = ["front", "roof"]
service = "heating"

[[circuit]]
id = "primary"
medium = "water"
isolate = [{ by = "valve", makes = "drained" }]
feeds = ["filling-link"]
drivers = ["heat-source"]
[[circuit]]
id = "supply"
medium = "mains"
isolate = [{ by = "spur", makes = "dead" }]
feeds = []
drivers = []
[[circuit]]
id = "store"
medium = "water"
no_isolation = "it has no joint"

[[point]]
id = "spur"
title = "fused spur"
kind = "supply"
role = "isolates"
circuit = "supply"
position = "front"
normally = "on"
seconds = 5
basis = "from memory"
[[point]]
id = "valve"
title = "inlet valve"
kind = "valve"
role = "isolates"
circuit = "primary"
by = "valve"
position = "front"
normally = "open"
seconds = 5
basis = "from memory"
[[point]]
id = "drain"
title = "drain cock"
kind = "drain"
role = "drains"
circuit = "primary"
position = "front"
normally = "closed"
seconds = 5
basis = "from memory"
[[point]]
id = "filling-link"
title = "filling link"
kind = "link"
role = "feeds"
position = "front"
normally = "parted"
seconds = 20
basis = "from memory"
[[point]]
id = "heat-source"
title = "heat source"
kind = "switch"
role = "drives"
position = "front"
normally = "on"
seconds = 5
basis = "from memory"
[[point]]
id = "store-valve"
title = "store valve"
kind = "valve"
role = "isolates"
circuit = "store"
position = "front"
normally = "open"
seconds = 5
basis = "from memory"

[[component]]
id = "casing"
title = "casing"
role = "cover"
position = "front"
forms = ["seal"]
[[component]]
id = "terminal-cover"
title = "terminal cover"
role = "cover"
position = "front"
behind = ["casing"]
guards = ["mains"]
[[component]]
id = "pump"
title = "pump"
role = "pump"
position = "front"
behind = ["casing", "terminal-cover"]
part = "new-pump"
proves = ["run-look"]
stores = [{ kind = "water", catch = ["tray"] }]
holds_settings = ["curve"]
settings_from = "the plate inside"
rotates = true
orientation = "flow arrow"
passes = "the grille"
must_match = ["thread"]
sheds_into = ["filter"]
out_for = ["insulation"]
off_text = "Draw the pump straight out past the grille."
on_text = "Slide the pump straight in past the grille."
[component.brings]
changed = ["measure"]
[component.work.replace]
needs = "out"
min = { low = 1, mode = 1, high = 1 }
steps = ["Wipe the seat."]
proofs = ["settings"]
basis = "from memory"
[[component]]
id = "filter"
title = "filter"
role = "filter"
position = "roof"
[component.work.clean]
needs = "in-place"
min = { low = 1, mode = 1, high = 1 }
wait_min = 2
steps = ["Rinse the filter."]
conditions = ["way-up"]
basis = "from memory"
[[component]]
id = "box"
title = "sealed box"
role = "box"
position = "front"
closed_to = "sealed-work"
stop_line = "Leave the sealed box shut."

[[joint]]
id = "casing-screws"
between = ["casing", "frame"]
hardware = "screw"
position = "front"
[[joint]]
id = "cover-screw"
between = ["terminal-cover", "frame"]
hardware = "screw"
position = "front"
behind = ["casing"]
[[joint]]
id = "cores"
between = ["pump", "frame"]
hardware = "core"
count = 2
circuit = "supply"
position = "front"
behind = ["terminal-cover"]
[[joint]]
id = "union"
between = ["pump", "frame"]
hardware = "union"
circuit = "primary"
position = "front"
behind = ["casing"]
[[joint]]
id = "bracket"
between = ["pump", "frame"]
hardware = "bracket-bolt"
position = "front"
behind = ["casing"]
bears = true

[[examination]]
id = "after-work"
title = "after any work"
when = ["anything-opened"]
proofs = ["function-test"]
basis = "from memory"

[[function]]
id = "heating"
title = "heating"
call = "Call for heating"
see = "the pump runs"
proof = "function-test"
components = ["pump"]
[[function]]
id = "limit"
title = "limit"
call = "Trip the limit"
see = "it stays off until it is reset"
proof = "limit-test"
components = ["pump"]
resets = "by-hand"
behind = []
"""

CATALOGUE = """
format = 1
kind = [
  { id = "core", undo = "Undo", remake = "Make up", rank = 0, tightness = "pull", source = "ours" },
  { id = "pipe", undo = "Undo", remake = "Make up", rank = 1, tightness = "torque", source = "ours" },
  { id = "fixing", undo = "Undo", remake = "Drive in", rank = 3, source = "ours" },
]
tool = [
  { id = "driver", title = "driver" },
  { id = "wrench", title = "torque wrench", min_nm = 5, max_nm = 50, source = "ours" },
  { id = "tester", title = "tester" },
  { id = "tray", title = "drip tray" },
  { id = "sheet", title = "cover sheet" },
  { id = "goggles", title = "goggles" },
]
part = [
  { id = "new-pump", title = "pump" },
  { id = "inhibitor", title = "inhibitor", kind = "consumable" },
]
licence = [{ id = "sealed-work", person = "a person certified for sealed boxes" }]
boundary = [{ id = "seal", title = "seal", brings = { put_back = ["listen"] } }]
[[medium]]
id = "water"
title = "water"
after_remaking = ["leak-check", "hot-look"]
cautions = ["hot-water"]
catch = ["tray"]
loaded = "at-heat"
tight = true
[[medium]]
id = "mains"
title = "mains"
before_opening = ["dead"]
after_remaking = ["insulation", "earth"]
before_joints = ["terminals-dead"]
tight = true
[[hardware]]
id = "screw"
title = "screw"
kind = "fixing"
tools = ["driver"]
off_s = 5
on_s = 5
log_spread = 0.2
reuse = "reusable"
basis = "from memory"
[[hardware]]
id = "bracket-bolt"
title = "bolt"
kind = "fixing"
tools = ["driver"]
off_s = 5
on_s = 5
log_spread = 0.2
reuse = "reusable"
basis = "from memory"
[[hardware]]
id = "core"
title = "core"
kind = "core"
tools = ["driver"]
off_s = 5
on_s = 5
log_spread = 0.2
reuse = "reusable"
basis = "from memory"
[[hardware]]
id = "union"
title = "union"
kind = "pipe"
tools = ["wrench"]
off_s = 5
on_s = 5
log_spread = 0.2
reuse = "reusable"
basis = "from memory"
"""

CONDITIONS = """
format = 1
[[condition]]
id = "way-up"
title = "way up"
confirm = "Look at the ladder."
of_place = true
make = [{ text = "Tie the ladder.", min = 1, basis = "from memory" }]
release = [{ text = "Take the ladder down.", min = 1, basis = "from memory" }]
[[condition]]
id = "source-off"
title = "heat source held off"
confirm = "Look that the heat source is off."
release_after = ["dead", "drained"]
make = [
  { text = "Hold the heat source off.", min = 1, operate = [{ role = "drives", to = "off" }], source = "ours" },
]
release = [
  { text = "Let the heat source free.", min = 1, operate = [{ role = "drives", to = "on" }], source = "ours" },
]
[[condition]]
id = "dead"
title = "dead"
after = ["way-up"]
confirm = "Prove dead."
release_after = ["insulation", "earth", "drained"]
takes_away = ["powered", "pump-alone", "running", "at-heat"]
sign = "the tester reads nothing"
if_not = "find the second supply"
make = [
  { text = "Write down what is found.", min = 1, state = "powered", source = "ours" },
  { text = "Switch off and lock.", min = 1, operate = [{ role = "isolates", to = "off" }], source = "ours" },
]
release = [{ text = "Switch on.", min = 1, operate = [{ role = "isolates", to = "on" }], basis = "from memory" }]
[[condition]]
id = "terminals-dead"
title = "dead at the terminals"
after = ["dead"]
confirm = "Prove each pair dead."
make = [{ text = "Prove each pair dead.", min = 1, tools = ["tester"], basis = "from memory" }]
[[condition]]
id = "shut"
title = "shut"
confirm = "Look that the valve is shut."
make = [{ text = "Close the valve.", min = 1, basis = "from memory" }]
release = [{ text = "Open the valve.", min = 1, basis = "from memory" }]
[[condition]]
id = "drained"
title = "drained"
after = ["source-off", "dead"]
satisfies = ["shut"]
confirm = "Open the drain: nothing comes."
sign = "nothing more runs"
if_not = "close the stop valve"
tells = { who = "the occupants" }
make = [
  { text = "Part the filling link.", min = 1, operate = [{ role = "feeds", to = "parted" }], source = "ours" },
  { text = "Close the inlet valve.", min = 1, operate = [{ role = "isolates", to = "closed" }], source = "ours" },
  { text = "Open the drain cock.", min = 1, wait_min = 1, source = "ours", operate = [
    { role = "drains", to = "open" },
  ] },
]
release = [
  { text = "Shut the drain cock.", min = 1, operate = [{ role = "drains", to = "closed" }], source = "ours" },
  { text = "Crack the inlet valve.", min = 1, operate = [{ role = "isolates", to = "cracked" }], source = "ours" },
  { after = ["leak-check"], text = "Open the inlet valve fully.", min = 1, source = "ours", operate = [
    { role = "isolates", to = "open" },
  ] },
  { text = "Join the filling link and fill.", min = 1, operate = [{ role = "feeds", to = "joined" }], source = "ours" },
  { text = "Part the filling link again.", min = 1, operate = [{ role = "feeds", to = "parted" }], source = "ours" },
]
"""

PROOFS = """
format = 1
[[proof]]
id = "insulation"
title = "insulation"
stage = "apart"
plant = "dead"
held = ["dead"]
failure = "Find the fault."
step = [{ text = "Measure the leads.", min = 1, tools = ["tester"], basis = "from memory" }]
[[proof]]
id = "earth"
title = "earth"
stage = "open"
sight = false
plant = "dead"
held = ["dead"]
after = ["insulation"]
failure = "Remake the earth."
step = [{ text = "Measure the earth.", min = 1, tools = ["tester"], basis = "from memory" }]
reading = [{ id = "earth-ohm", title = "earth resistance", unit = "ohm", limit = "earth-ohm" }]
[[proof]]
id = "leak-check"
title = "leak check"
stage = "open"
plant = "charged"
names_joints = true
looks_again = ["hot-look"]
failure = "Remake the joint."
step = [{ text = "Look at the joints.", min = 1, basis = "from memory" }]
[[proof]]
id = "run-look"
title = "look at the running pump"
stage = "open"
sight = false
plant = "running"
failure = "Stop it."
step = [{ text = "Look at the running pump.", min = 1, state = "pump-alone", basis = "from memory" }]
[[proof.way]]
id = "casing-off"
title = "with the casing off"
consent = "the maker's instructions"
watch = "the alarm"
basis = "from memory"
[[proof.way]]
id = "mirror"
title = "with a mirror through the grille"
consent = "nobody's"
basis = "from memory"
[[proof]]
id = "settings"
title = "settings"
stage = "open"
sight = false
plant = "running"
settings = true
failure = "Ask the maker."
step = [{ text = "Enter the curve and read it back.", min = 1, state = "powered", basis = "from memory" }]
[[proof]]
id = "limit-test"
title = "limit"
stage = "live"
plant = "running"
after = ["run-look"]
failure = "Lock it off."
step = [{ text = "Trip the limit.", min = 1, state = "running", basis = "from memory" }]
[[proof]]
id = "hot-look"
title = "hot look"
stage = "live"
plant = "running"
after = ["limit-test"]
seen_covered = "a mirror from below"
failure = "Stop it."
step = [{ text = "Look again when hot.", min = 1, state = "at-heat", basis = "from memory" }]
[[proof]]
id = "listen"
title = "listen"
stage = "live"
plant = "running"
failure = "Stop it."
step = [{ text = "Listen along the seal.", min = 1, state = "running", basis = "from memory" }]
[[proof]]
id = "measure"
title = "measure"
stage = "live"
plant = "running"
failure = "Stop it."
step = [{ text = "Measure the head.", min = 1, state = "running", basis = "from memory" }]
[[proof]]
id = "function-test"
title = "function"
stage = "live"
plant = "running"
after = ["hot-look", "listen", "measure"]
failure = "Stop it."
[[proof.step]]
text = "Call for heating."
min = 1
state = "running"
source = "ours"
[[proof.step]]
text = "Dose inhibitor."
min = 1
consumables = ["inhibitor"]
only_if = { reading = "inhibitor", says = "low" }
source = "ours"
[[proof.reading]]
id = "flow"
title = "flow"
unit = "l/min"
[proof.reading.as_found]
min = 1
state = "running"
basis = "from memory"
[[proof.reading]]
id = "inhibitor"
title = "inhibitor"
unit = "list"
"""

CAUTIONS = """
format = 1
[[caution]]
id = "hot-water"
word = "WARNING"
hazard = "Hot water."
wear = ["goggles"]
lay = ["sheet"]
act = ["Let it cool."]
[[caution]]
id = "dark"
word = "CAUTION"
hazard = "No light."
"""

FACTS = """
format = 1
[[fact]]
id = "loft"
title = "in a loft"
conditions = ["way-up"]
cautions = ["dark"]
proofs = ["listen"]
people = 1
basis = "from memory"
"""

LIMITS = """
format = 1
[jurisdiction]
id = "here"
title = "Here"
[[limit]]
id = "earth-ohm"
unit = "ohm"
max = 0.1
source = "the test's own"
"""

JOB = """
format = 1
[job]
reference = "J1"
title = "Pump"
assembly = "pump-unit"
date = 2025-05-05
[site]
facts = ["loft"]
[[task]]
do = "replace"
component = "pump"
[[task]]
do = "clean"
component = "filter"
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


@cache
def visit(assembly: str = ASSEMBLY, conditions: str = CONDITIONS) -> Visit:
    """The job with everything it refers to; assembly and conditions may be given with a line changed."""
    rows = CatalogueFile.model_validate(tomllib.loads(CATALOGUE))
    plant = Assembly.model_validate(tomllib.loads(assembly))
    limits = LimitsFile.model_validate(tomllib.loads(LIMITS))
    library = Library(
        assemblies={plant.assembly.id: plant},
        kinds={row.id: row for row in rows.kind},
        hardware={row.id: row for row in rows.hardware},
        tools={row.id: row for row in rows.tool},
        parts={row.id: row for row in rows.part},
        media={row.id: row for row in rows.medium},
        boundaries={row.id: row for row in rows.boundary},
        licences={row.id: row for row in rows.licence},
        usual_work=USUAL_WORK,
        conditions={row.id: row for row in ConditionsFile.model_validate(tomllib.loads(conditions)).condition},
        proofs={row.id: row for row in ProofsFile.model_validate(tomllib.loads(PROOFS)).proof},
        cautions={row.id: row for row in CautionsFile.model_validate(tomllib.loads(CAUTIONS)).caution},
        facts={row.id: row for row in FactsFile.model_validate(tomllib.loads(FACTS)).fact},
        limits={limits.jurisdiction.id: limits},
    )
    return Visit(JobFile.model_validate(tomllib.loads(JOB)), FirmFile.model_validate(tomllib.loads(FIRM)), library)


def _line(name: str, phase: str, text: str = "", waits_for: tuple[str, ...] = (), **fields: Any) -> Line:
    """A line by its action and thing; `points` and `acts` as `"valve closed"` and `"mark pump"`."""
    action, _, thing = name.partition(" ")
    kinds = {"make": "condition", "release": "condition", "prove": "proof", "take": "component", "fit": "component",
             "work": "component"}  # fmt: skip
    titles = {"spur": "fused spur", "valve": "inlet valve", "drain": "drain cock", "filling-link": "filling link",
              "heat-source": "heat source"}  # fmt: skip
    points = [one.split() for one in fields.pop("points", ())]
    acts = [one.split(" ", 1) for one in fields.pop("acts", ())]
    whole = {"text": text or name, "position": "front", "seconds": 60, **fields, "phase": phase, "action": action}
    whole["points"] = tuple(StepPoint(id=point, title=titles[point], to=to) for point, to in points)
    whole["acts"] = tuple(
        StepAct(act=act, thing=said, count=2 if act == "pull" else 1)  # type: ignore[arg-type]
        for act, said in acts
    )
    if action != "record":
        whole[kinds.get(action, "joint")] = thing.split("/")[0]
    return Line(name, whole, waits_for)


_HOT = (StepCaution(id="hot-water", word="WARNING", text="Hot water."),)
_DARK = (StepCaution(id="dark", word="CAUTION", text="No light."),)

LINES = (
    _line("make way-up", "make-safe", "Tie the ladder.", cautions=_DARK, position="roof"),
    _line("make dead/1", "make-safe",
          "Write down what is found: flow, curve (or from the plate inside). Compare the thread of the new pump.",
          acts=("as-found flow", "note pump", "compare pump"), state="running"),
    _line("make source-off", "make-safe", "Hold the heat source off. Tell the occupants that the heating goes off.",
          points=("heat-source off",), acts=("tell the occupants",)),
    _line("make dead/2", "make-safe", "Switch off and lock. (fused spur)", points=("spur off",)),
    _line("make drained/1", "make-safe", "Part the filling link.", points=("filling-link parted",)),
    _line("make drained/2", "make-safe", "Close the inlet valve.", points=("valve closed",)),
    _line("make drained/3", "make-safe", "Open the drain cock.", points=("drain open",), wait_s=60),
    _line("undo casing-screws", "strip", seconds=5, tools=("driver",)),
    _line("take casing", "strip", "Lay the cover sheet and the drip tray, mark the flow arrow. Let it cool.",
          acts=("lay sheet", "catch tray", "mark pump"), tools=("tray",)),
    _line("undo cover-screw", "strip", seconds=5, tools=("driver",)),
    _line("take terminal-cover", "strip"),
    _line("make terminals-dead", "make-safe", "Prove each pair dead.", tools=("tester",)),
    _line("undo cores", "strip", seconds=10, tools=("driver",)),
    _line("undo union", "strip", "", ("make drained/3",), seconds=5, tools=("wrench",), cautions=_HOT),
    _line("undo bracket", "strip", seconds=5, tools=("driver",)),
    _line("take pump", "strip", "Draw the pump straight out past the grille."),
    _line("work pump", "work", "Wipe the seat."),
    _line("prove insulation", "prove", "Measure the leads.", tools=("tester",)),
    _line("work filter", "work", "Rinse the filter.", position="roof", wait_s=120),
    _line("fit pump", "refit", "Slide the pump straight in past the grille."),
    _line("remake bracket", "refit", "Drive in the bolt; match the flow arrow.", seconds=5, tools=("driver",),
          acts=("match pump",)),
    _line("remake union", "refit", seconds=5, tools=("wrench",), record="N·m, maker's figure"),
    _line("remake cores", "refit", "Make up 2 cores and pull at each; turn the pump by hand.", seconds=10,
          tools=("driver",), acts=("pull cores", "turn-by-hand pump")),
    _line("prove earth", "prove", "Measure the earth.", tools=("tester",)),
    _line("fit terminal-cover", "refit", "Fit the terminal cover: nothing is left inside.",
          acts=("look-inside terminal-cover",)),
    _line("remake cover-screw", "refit", seconds=5, tools=("driver",)),
    _line("release drained/1", "release", "Shut the drain cock.", points=("drain closed",)),
    _line("release drained/2", "release", "Crack the inlet valve.", points=("valve cracked",)),
    _line("prove leak-check", "prove", "Look at the joints."),
    _line("release drained/3", "release", "Open the inlet valve fully.", points=("valve open",)),
    _line("release drained/4", "release", "Join the filling link and fill.", points=("filling-link joined",)),
    _line("release drained/5", "release", "Part the filling link again.", points=("filling-link parted",)),
    _line("release dead", "release", "Switch on. (fused spur)", points=("spur on",)),
    _line("release source-off", "release", "Let the heat source free. Tell the occupants that the heating is back.",
          points=("heat-source on",), acts=("tell the occupants",)),
    _line("release way-up", "release", "Take the ladder down.", position="roof"),
    _line("prove settings", "prove", "Enter the curve and read it back.", state="powered"),
    _line("prove run-look", "prove", "Look at the running pump.", state="pump-alone"),
    _line("fit casing", "refit", "Fit the casing: nothing is left inside.", acts=("look-inside casing",)),
    _line("remake casing-screws", "refit", seconds=5, tools=("driver",)),
    _line("prove limit-test", "prove", "Trip the limit. See that it stays off until it is reset.", state="running",
          acts=("function limit",)),
    _line("prove hot-look", "prove", "Look again when hot.", state="at-heat"),
    _line("prove listen", "prove", "Listen along the seal.", state="running"),
    _line("prove measure", "prove", "Measure the head.", state="running"),
    _line("prove function-test/1", "prove", "Call for heating. See that the pump runs.", state="running",
          acts=("function heating",)),
    _line("prove function-test/2", "prove", "Dose inhibitor.", only_if="inhibitor low"),
    _line("record", "hand-over"),
)  # fmt: skip

_PROOFS = (
    ("insulation", "apart", "Find the fault."),
    ("earth", "open", "Remake the earth."),
    ("leak-check", "open", "Remake the joint."),
    ("run-look", "open", "Stop it."),
    ("settings", "open", "Ask the maker."),
    ("limit-test", "live", "Lock it off."),
    ("hot-look", "live", "Stop it."),
    ("listen", "live", "Stop it."),
    ("measure", "live", "Stop it."),
    ("function-test", "live", "Stop it."),
)
_ROWS: dict[str, dict[str, Any]] = {
    "insulation": {"joints": ("cores",)},
    "earth": {
        "joints": ("cores",),
        "readings": (
            PlanReading(id="earth-ohm", title="earth resistance", unit="ohm", max=0.1, source="the test's own"),
        ),
    },
    "leak-check": {"joints": ("union",), "points": ("drain",)},
    "run-look": {
        "way": PlanWay(
            id="casing-off", title="with the casing off", decided_by="the engineer", consent="the maker's instructions",
            watch="the alarm", instead=("with a mirror through the grille",),
        )
    },
    "hot-look": {"joints": ("union",), "seen_covered": "a mirror from below"},
    "listen": {"brought": (Brought(thing="casing", disturbance="put_back", rule="the boundary seal"),)},
    "measure": {"brought": (Brought(thing="pump", disturbance="changed", rule="the component pump"),)},
    "function-test": {
        "readings": (
            PlanReading(id="flow", title="flow", unit="l/min", as_found=True),
            PlanReading(id="inhibitor", title="inhibitor", unit="list"),
        )
    },
}  # fmt: skip


def plan_of(lines: tuple[Line, ...] = LINES, rows: dict[str, dict[str, Any]] | None = None, **fields: Any) -> Plan:
    """The hand-written plan with these lines, and with fields of its proofs' rows or of itself changed."""
    steps = steps_of(lines)
    hands_on, elapsed = sum(step.seconds for step in steps), steps[-1].start_s + steps[-1].seconds
    whole: dict[str, Any] = {
        "splitpin": "0",
        "job": "J1",
        "title": "Pump",
        "assembly": "pump-unit",
        "assembly_title": "Pump unit",
        "status": "proved",
        "gap_s": 0,
        "tasks": ("replace the pump", "clean the filter"),
        "conditions": (
            *(PlanCondition(id=name, title=name) for name in ("way-up", "source-off", "terminals-dead")),
            PlanCondition(id="dead", title="dead", sign="the tester reads nothing", if_not="find the second supply"),
            PlanCondition(id="drained", title="drained", sign="nothing more runs", if_not="close the stop valve",
                          tells="the occupants"),
        ),
        "steps": steps,
        "opened": Opened(
            components=tuple(
                OpenedComponent(id=one, title=one, ends="out") for one in ("casing", "terminal-cover", "pump")
            ),
            joints=("casing-screws", "cover-screw", "cores", "union", "bracket"),
            circuits=("supply", "primary"),
        ),
        "tools": (
            *(PlanTool(id=name, title=name) for name in ("driver", "wrench", "tester", "tray")),
            *(PlanTool(id=name, title=name, from_step=1) for name in ("sheet", "goggles")),
        ),
        "parts": (
            PlanPart(part="new-pump", title="pump", quantity=1, kind="replace", certain=True, must_match=("thread",)),
            PlanPart(part="inhibitor", title="inhibitor", quantity=1, kind="consumable", certain=False,
                     only_if="inhibitor low"),
        ),
        "proofs": tuple(
            PlanProof(**{  # type: ignore[arg-type]
                "id": name, "title": name, "stage": stage, "failure": failure,
                **_ROWS.get(name, {}), **(rows or {}).get(name, {}),
            })
            for name, stage, failure in _PROOFS
        ),
        "times": Times(hands_on_s=hands_on, waiting_s=elapsed - hands_on, elapsed_s=elapsed),
        "people": 1,
        "licences": tuple[Licence, ...](),
        "functions": (
            PlanFunction(id="heating", title="heating", call="Call for heating", see="the pump runs",
                         proof="function-test"),
            PlanFunction(id="limit", title="limit", call="Trip the limit", see="it stays off until it is reset",
                         proof="limit-test"),
        ),
        "stop_lines": (StopLine(component="box", text="Leave the sealed box shut."),),
    }  # fmt: skip
    return Plan(**{**whole, **fields})


def but(name: str, **fields: Any) -> tuple[Line, ...]:
    """The lines with fields of one of them changed."""
    assert any(line.name == name for line in LINES), name
    return tuple(line.but(**fields) if line.name == name else line for line in LINES)


def without(*names: str) -> tuple[Line, ...]:
    """The lines without these."""
    assert set(names) <= {line.name for line in LINES}
    return tuple(line for line in LINES if line.name not in names)


def moved(name: str, after: str) -> tuple[Line, ...]:
    """The lines with one of them moved to stand after another."""
    line = next(line for line in LINES if line.name == name)
    rest = [one for one in LINES if one.name != name]
    where = next(index for index, one in enumerate(rest) if one.name == after)
    return (*rest[: where + 1], line, *rest[where + 1 :])


def added(after: str, *, like: str, **fields: Any) -> tuple[Line, ...]:
    """The lines with one more, like another but for these fields, after a third."""
    line = replace(next(line for line in LINES if line.name == like).but(**fields), name=f"{like} again")
    where = next(index for index, one in enumerate(LINES) if one.name == after)
    return (*LINES[: where + 1], line, *LINES[where + 1 :])
