"""Small random visits: two to four components, some behind others or with two ways out; two isolations of a circuit."""

import random

from tests.planning.usual import USUAL_WORK

from splitpin.records.assembly import Assembly
from splitpin.records.catalogue import Boundary, Handling, Hardware, Kind, Medium, Part, Seal, Tool
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Library, Visit
from splitpin.records.procedure import Condition, Proof

CP = "common practice"
TOOLS = ("driver", "spanner", "pliers")


def library(chance: random.Random) -> Library:
    """One row of everything that the random assemblies use; waits and proofs at random lengths."""

    def step(minutes: float, wait: float = 0, tools: list[str] | None = None) -> dict[str, object]:
        return {"text": "Do it.", "min": minutes, "wait_min": wait, "tools": tools or [], "basis": CP}

    hardware = [
        Hardware.model_validate(
            {
                "id": f"fixing-{tool}",
                "title": f"{tool} fixing",
                "kind": "screw" if tool == "driver" else "pipe",
                "tools": [tool],
                "off_s": chance.randint(2, 20),
                "on_s": chance.randint(2, 30),
                "log_spread": 0.3,
                "reuse": "reusable",
                "basis": CP,
            }
        )
        for tool in TOOLS
    ]
    conditions = [
        Condition.model_validate(
            {
                "id": "dead",
                "title": "dead",
                "make": [step(1)],
                "release": [step(0.5)],
                "confirm": "Confirm.",
                "release_after": ["leak"],
            }
        ),
        Condition.model_validate(
            {
                "id": "drained",
                "title": "drained",
                "make": [step(1, chance.choice([0, 1, 4])), step(0.5)],
                "release": [step(1, chance.choice([0, 1]))],
                "confirm": "Confirm.",
            }
        ),
        Condition.model_validate(
            {
                "id": "valved",
                "title": "valved",
                "make": [step(chance.choice([1, 2, 3]))],
                "release": [step(1)],
                "confirm": "Confirm.",
            }
        ),
    ]
    proofs = [
        Proof.model_validate(
            {
                "id": "leak",
                "title": "leak check",
                "stage": "open",
                "plant": "charged",
                "step": [step(1)],
                "failure": "Stop.",
            }
        ),
        Proof.model_validate(
            {
                "id": "room",
                "title": "room seal",
                "stage": "closed",
                "plant": "charged",
                "step": [step(1)],
                "failure": "Stop.",
            }
        ),
        Proof.model_validate(
            {
                "id": "run",
                "title": "run",
                "stage": "live",
                "plant": "running",
                "step": [step(1, 3), step(1)],
                "failure": "Stop.",
            }
        ),
        Proof.model_validate(
            {
                "id": "warm",
                "title": "warm",
                "stage": "live",
                "plant": "running",
                "step": [step(2)],
                "failure": "Stop.",
            }
        ),
        Proof.model_validate(
            {
                "id": "hand-over",
                "title": "hand-over",
                "stage": "live",
                "plant": "running",
                "step": [step(1)],
                "failure": "Stop.",
            }
        ),
    ]
    return Library(
        kinds={
            "screw": Kind(id="screw", undo="Undo", remake="Do up", rank=2, basis=CP),
            "pipe": Kind(id="pipe", undo="Undo", remake="Make", rank=1, basis=CP),
        },
        hardware={row.id: row for row in hardware},
        seals={"ring": Seal(id="ring", title="ring", policy="renew", seconds=10, basis=CP)},
        tools={tool: Tool(id=tool, title=tool) for tool in TOOLS},
        parts={"part": Part(id="part", title="part"), "ring": Part(id="ring", title="ring", kind="seal")},
        media={
            "water": Medium.model_validate({"id": "water", "title": "water", "after_remaking": ["leak"]}),
            "mains": Medium.model_validate({"id": "mains", "title": "mains", "before_opening": ["dead"]}),
        },
        boundaries={
            "seal": Boundary.model_validate(
                {"id": "seal", "title": "room seal", "before_opening": ["dead"], "after_remaking": ["room", "run"]}
            )
        },
        handling=(Handling(up_to_kg=50, off_s=5, on_s=8, people=1, basis=CP),),
        usual_work=USUAL_WORK,
        conditions={row.id: row for row in conditions},
        proofs={row.id: row for row in proofs},
    )


def visit(seed: int, *, largest: int = 4) -> Visit:
    """The random visit of this seed: replace the last component."""
    chance = random.Random(seed)
    names = [f"c{number}" for number in range(chance.randint(2, largest))]
    components, joints = [], []
    for number, name in enumerate(names):
        earlier = names[:number]
        front = [chance.sample(earlier, min(len(earlier), chance.randint(0, 2))) for _ in range(chance.randint(1, 2))]
        component: dict[str, object] = {
            "id": name,
            "title": name,
            "role": "thing",
            "position": chance.choice(["front", "side"]),
            "behind": front,
            "part": "part",
            "proves": ["warm"] if number == 1 else [],
        }
        if chance.random() < 0.4:
            component["way"] = [
                {"ends": "out", "behind": front},
                {
                    "ends": "aside",
                    "behind": front[:1],
                    "undoes": [f"{name}-j0"],
                    "off_s": chance.randint(1, 9),
                    "on_s": 3,
                    "basis": CP,
                },
            ]
        if chance.random() < 0.3:
            component["guards"] = ["mains"]
        if chance.random() < 0.3:
            component["forms"] = ["seal"]
        if earlier and chance.random() < 0.35:
            component["carried_by"] = chance.choice(earlier)
        components.append(component)
        for index in range(chance.randint(1, 2)):
            other = chance.choice([*earlier, "frame"])
            joints.append(
                dict(
                    id=f"{name}-j{index}",
                    between=[name, other],
                    hardware=f"fixing-{chance.choice(TOOLS)}",
                    count=chance.randint(1, 3),
                    position=chance.choice(["front", "side"]),
                    behind=front[:1] if chance.random() < 0.5 else [],
                    **({"circuit": "water", "seal": "ring"} if chance.random() < 0.4 else {}),
                )
            )
    assembly = Assembly.model_validate(
        {
            "format": 1,
            "assembly": {"id": "random", "title": "random", "positions": ["front", "side"]},
            "circuit": [
                {
                    "id": "water",
                    "medium": "water",
                    "isolate": [{"by": "valves", "makes": "valved"}, {"by": "drain", "makes": "drained"}],
                }
            ],
            "component": components,
            "joint": joints,
        }
    )
    rows = library(chance)
    rows.assemblies["random"] = assembly
    job = JobFile.model_validate(
        {
            "format": 1,
            "job": {"reference": "R", "title": "random", "assembly": "random"},
            "task": [{"do": "replace", "component": names[-1]}],
        }
    )
    firm = FirmFile.model_validate(
        {
            "format": 1,
            "firm": {"id": "f", "title": "f", "jurisdiction": "gb"},
            "times": {"pickup_s": 6, "move_s": 7, "basis": CP},
        }
    )
    return Visit(job, firm, rows)
