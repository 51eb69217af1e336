"""What the plan needs aboard: tools, parts, seals, single-use fixings and consumables, each with its reason."""

from dataclasses import dataclass, field

from splitpin.planning.asked.expand import REPLACE, Wanted
from splitpin.planning.plant.doings import Doings, Undo
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.wording import cite, sized
from splitpin.records.plan import PlanPart, PlanTool, Step

KINDS = ("replace", "seal", "single-use", "consumable")


@dataclass(slots=True)
class _Row:
    title: str
    quantity: int = 0
    certain: bool = False
    because: list[str] = field(default_factory=list)


class _PickList:
    def __init__(self) -> None:
        self.rows: dict[tuple[str, str], _Row] = {}

    def add(self, kind: str, part: str, title: str, quantity: int, reason: str, *, certain: bool = True) -> None:
        """So many more of a part; a part that one reason makes certain is certain."""
        row = self.rows.setdefault((kind, part), _Row(title))
        row.quantity = 1 if kind == "consumable" else row.quantity + quantity
        row.certain = row.certain or certain
        if reason not in row.because:
            row.because.append(reason)


def parts(
    doings: Doings,
    consumables: dict[str, str],
    plant: Plant,
    wanted: tuple[Wanted, ...],
) -> tuple[PlanPart, ...]:
    """The pick list by kind and part id. `consumables` gives each consumable's id the step that first needs it.

    Seals and fixings that are only inspected, or measured first, are uncertain; one certain need makes the row certain.
    """
    library = plant.library
    picks = _PickList()
    for wish in wanted:
        if wish.component is not None and wish.do == REPLACE and wish.component.part is not None:
            part = wish.component.part
            picks.add(
                "replace", part, library.parts[part].title, 1, cite(f"{wish.asked} asks to {wish.phrase}", wish.place)
            )
        for part in wish.work.parts:
            picks.add(
                "replace", part, library.parts[part].title, 1, cite(f"the task is to {wish.phrase}", wish.work.place)
            )
    for doing in doings:
        if not isinstance(doing, Undo):
            continue
        joint, fixing = doing.joint, doing.fixing
        opened = cite(f"{doing.phrase} is opened", doing.place)
        if joint.seal is not None:
            seal = library.seals[joint.seal]
            rule = "renewed whenever opened" if seal.policy == "renew" else "renewed if the inspection says so"
            picks.add(
                "seal",
                seal.part or seal.id,
                sized(seal),
                joint.seal_count,
                f"{opened}; {seal.title}: {rule}, {seal.origin}",
                certain=seal.policy == "renew",
            )
        if fixing.reuse == "renew" or (fixing.part is not None and fixing.reuse != "reusable"):
            part = fixing.part or joint.hardware
            title = library.parts[part].title if part in library.parts else fixing.part_title or fixing.title
            reason = f"{opened}; {fixing.reuse_reason}"
            picks.add("single-use", part, title, joint.count, reason, certain=fixing.reuse == "renew")
    for part, reason in consumables.items():
        picks.add("consumable", part, library.parts[part].title, 1, reason)
    return tuple(
        PlanPart(
            part=part,
            title=row.title,
            quantity=row.quantity,
            kind=kind,  # type: ignore[arg-type]
            pack=library.parts[part].pack if part in library.parts else None,
            certain=row.certain,
            because=tuple(row.because),
        )
        for (kind, part), row in sorted(picks.rows.items(), key=lambda item: (KINDS.index(item[0][0]), item[0][1]))
    )


def tools(steps: tuple[Step, ...], plant: Plant) -> tuple[PlanTool, ...]:
    """Every tool of the steps by title, with the steps that use it."""
    users: dict[str, list[str]] = {}
    for step in steps:
        for tool in step.tools:
            users.setdefault(tool, []).append(f"step {step.n}: {step.text}")
    rows = [
        PlanTool(id=tool, title=plant.library.tools[tool].title, owned=plant.owned(tool), because=tuple(reasons))
        for tool, reasons in users.items()
    ]
    return tuple(sorted(rows, key=lambda row: (row.title, row.id)))
