"""A round as plain numbers: its outcomes as faults, parts, consumables and tools as items, the van's limits.

A consumable and a tool serve every job; a consumable that no table of stock names counts as aboard. A part of which
there is none is replaced by what may be taken instead. Mass and volume that are not known count as nothing and are
told. Money in ten-thousandths of the currency's unit, mass in grams, volume in millilitres.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from splitpin.records.library import Library, Round
from splitpin.records.plan import PlanPart
from splitpin.records.prices import Price
from splitpin.supply.problem import Fault, Item, Job, LoadProblem
from splitpin.supply.store import Stores, stand_in
from splitpin.supply.visits import Outcome

MONEY = 10_000
GRAMS = 1_000
_COUNTS_MOST = 1_000  # for the fewest return visits: a thousandth of a job is worth more than carrying everything


@dataclass(slots=True)
class Wanted:
    """What the round may need of one part: the row that names it first, and what it stands in for."""

    row: PlanPart
    consumable: bool
    instead_of: str | None


@dataclass(frozen=True, slots=True)
class Numbers:
    """The problem, and what its items are: `parts` by number, then `tools`, then the thing that nobody has."""

    problem: LoadProblem
    parts: tuple[str, ...]
    wanted: Mapping[str, Wanted]
    tools: tuple[str, ...]
    van_mass_g: int = 0
    van_volume_ml: int = 0
    unknown: tuple[str, ...] = field(default=())  # parts drawn or in the van of which the mass is not known
    unmeasured: tuple[str, ...] = field(default=())  # the same of the volume, where it is limited


def numbers(
    done: Round, outcomes: Sequence[tuple[Outcome, ...]], stores: Stores, prices: Mapping[str, Price]
) -> Numbers:
    """The round's problem. `outcomes` are those of its jobs in visiting order."""
    library = done.visits[0][1].library
    wanted = _wanted(outcomes, stores, library)
    parts = tuple(sorted(wanted))
    tools = tuple(sorted({tool.id for job in outcomes for one in job for tool in one.plan.tools}))
    owned = {tool.id for job in outcomes for one in job for tool in one.plan.tools if tool.owned}
    masses = masses_kg(done)
    items = [_item(done, part, wanted[part], stores, prices, outcomes, masses) for part in parts]
    items += [Item(aboard=int(tool in owned), used_up=False) for tool in tools]
    nowhere = len(items)
    items.append(Item())
    at = {part: n for n, part in enumerate(parts)}
    tool_at = {tool: len(parts) + n for n, tool in enumerate(tools)}
    penalties = _penalties(done, items)
    jobs = tuple(
        Job(penalty, tuple(Fault(one.weight, _needs(one, at, tool_at, nowhere, stores, library)) for one in job))
        for penalty, job in zip(penalties, outcomes, strict=True)
    )
    van = done.van.van
    van_mass = sum(row.quantity * round((masses.get(row.part) or 0) * GRAMS) for row in done.in_van)
    van_volume = sum(row.quantity * round((volume_l(row.part, library) or 0) * GRAMS) for row in done.in_van)
    room = round((van.payload_kg - van.carried_kg) * GRAMS) - van_mass
    space = None if van.volume_l is None else max(0, round(van.volume_l * GRAMS) - van_volume)
    known = [*parts, *(row.part for row in done.in_van if row.quantity)]
    return Numbers(
        LoadProblem(tuple(items), jobs, max(0, room), space),
        parts,
        wanted,
        tools,
        van_mass,
        van_volume,
        tuple(dict.fromkeys(part for part in known if masses.get(part) is None)),
        () if space is None else tuple(dict.fromkeys(part for part in known if volume_l(part, library) is None)),
    )


def masses_kg(done: Round) -> dict[str, float]:
    """The mass of one piece of each part: its own, or that of the component whose part it is, the heaviest of them."""
    found: dict[str, float] = {}
    for _, visit in done.visits:
        for component in visit.assembly.component:
            if component.part is not None and component.mass_kg is not None:
                found[component.part] = max(found.get(component.part, 0.0), component.mass_kg)
    rows = done.visits[0][1].library.parts
    return found | {part: row.mass_kg for part, row in rows.items() if row.mass_kg is not None}


def volume_l(part: str, library: Library) -> float | None:
    """The volume of one piece, where it is known."""
    return library.parts[part].volume_l if part in library.parts else None


def _wanted(outcomes: Sequence[tuple[Outcome, ...]], stores: Stores, library: Library) -> dict[str, Wanted]:
    found: dict[str, Wanted] = {}
    for job in outcomes:
        for one in job:
            for row in one.plan.parts:
                part = stand_in(row.part, stores, library)
                instead_of = row.part if part != row.part else None
                known = found.setdefault(part, Wanted(row, True, instead_of))
                known.consumable = known.consumable and row.kind == "consumable"
    return found


def _needs(
    one: Outcome,
    at: Mapping[str, int],
    tool_at: Mapping[str, int],
    nowhere: int,
    stores: Stores,
    library: Library,
) -> tuple[tuple[int, int], ...]:
    if one.obstacle is not None:
        return ((nowhere, 1),)
    pieces: dict[int, int] = {}
    for row in one.plan.parts:
        item = at[stand_in(row.part, stores, library)]
        pieces[item] = pieces.get(item, 0) + (1 if row.kind == "consumable" else row.quantity)
    for tool in one.plan.tools:
        pieces[tool_at[tool.id]] = 1
    return tuple(sorted(pieces.items()))


def _item(
    done: Round,
    part: str,
    wanted: Wanted,
    stores: Stores,
    prices: Mapping[str, Price],
    outcomes: Sequence[tuple[Outcome, ...]],
    masses: Mapping[str, float],
) -> Item:
    library = done.visits[0][1].library
    supply = done.firm.supply
    stock = stores.in_store(part)
    if supply is None or supply.store is None:  # nothing is known of the store: what is wanted can be had
        stock = sum(row.quantity for job in outcomes for one in job for row in one.plan.parts if row.part == part)
    if part in done.van.van.may_not_carry:
        stock = 0
    aboard = stores.in_van(part)
    if wanted.consumable and not stores.counted(part):
        aboard, stock = 1, 0
    return Item(
        cost=carrying(done, prices.get(part)),
        mass=round((masses.get(part) or 0) * GRAMS),
        volume=round((volume_l(part, library) or 0) * GRAMS),
        aboard=aboard,
        stock=stock,
        used_up=not wanted.consumable,
    )


def carrying(done: Round, price: Price | None) -> int:
    """What it costs to carry one drawn piece; without [supply] one step, so that nothing is carried for nothing."""
    supply = done.firm.supply
    if supply is None:
        return 1
    share = Decimal(0)
    if price is not None and price.cost is not None:
        share = price.cost / price.pack * supply.carrying_percent / 100
    return round((share + supply.carrying_each) * MONEY)


def _penalties(done: Round, items: Sequence[Item]) -> list[int]:
    supply = done.firm.supply
    if supply is None or done.file.round.aim == "fewest-return-visits":
        return [_COUNTS_MOST * (1 + sum(item.cost * item.stock for item in items))] * len(done.visits)
    return [
        round((row.return_visit if row.return_visit is not None else supply.return_visit) * MONEY)
        for row, _ in done.visits
    ]
