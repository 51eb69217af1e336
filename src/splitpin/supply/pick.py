"""From planned jobs to one pick list: what is wanted, why, what lies in the van, what is drawn, what is ordered."""

from collections.abc import Iterable, Mapping, Sequence

import splitpin
from splitpin.notices import Notice, in_order
from splitpin.planning import Planned
from splitpin.records.library import Library, Visit
from splitpin.records.plan import Plan, PlanNotice, PlanPart
from splitpin.records.prices import Price
from splitpin.records.supply import PickInstead, PickJob, PickLine, PickList, PickReason
from splitpin.supply.store import Stores, instead_of, on_the_way

KINDS = ("replace", "seal", "single-use", "consumable")


def pick_list(
    jobs: Sequence[Planned],
    stores: Stores,
    prices: Mapping[str, Price],
    said: Iterable[Notice] = (),
) -> PickList:
    """The list of all jobs together. A job without a plan adds nothing and says why; `jobs` are one at least.

    Cost grows with the parts of the plans.
    """
    library = jobs[0].visit.library
    rows: dict[str, list[tuple[str, PlanPart]]] = {}
    for job in jobs:
        for part in job.plan.parts:
            rows.setdefault(part.part, []).append((job.plan.job, part))
    lines = [_line(part, wants, stores, prices, library) for part, wants in sorted(rows.items())]
    return PickList(
        splitpin=splitpin.__version__,
        jobs=tuple(
            PickJob(reference=job.plan.job, title=job.plan.title, problem=_problem(job.visit, job.plan)) for job in jobs
        ),
        lines=tuple(sorted(lines, key=_turn)),
        notices=tuple(PlanNotice.of(notice) for notice in in_order(said)),
    )


def _problem(visit: Visit, plan: Plan) -> str | None:
    if plan.stops:
        return "an emergency, or a caller whom nobody asked about one: nothing is planned"
    if plan.status != "impossible":
        return None
    if visit.job.job.symptoms and not plan.tasks:
        return "only symptoms are known: splitpin diagnose finds the task, splitpin load says what to have aboard"
    if plan.refused:
        return f"{plan.refused[0].task}: {plan.refused[0].reason}"
    return next((notice.message for notice in plan.notices if notice.severity == "error"), "there is no plan")


def _line(
    part: str,
    wants: Sequence[tuple[str, PlanPart]],
    stores: Stores,
    prices: Mapping[str, Price],
    library: Library,
) -> PickLine:
    kind = min((row.kind for _, row in wants), key=KINDS.index)
    wanted = 1 if kind == "consumable" else sum(row.quantity for _, row in wants)
    known = library.parts.get(part)
    price = prices.get(part)
    pack = wants[0][1].pack or (price.pack if price is not None and price.pack > 1 else None)
    from_van = min(wanted, stores.in_van(part))
    draw = stores.places(part, wanted - from_van)
    short = wanted - from_van - sum(place.pieces for place in draw)
    # a handful of cloths that no table counts is not ordered each time; a part that none counts is
    order = short if stores.counted(part) or kind != "consumable" else 0
    return PickLine(
        part=part,
        title=wants[0][1].title,
        kind=kind,
        certain=any(row.certain for _, row in wants),
        wanted=wanted,
        from_van=from_van,
        bins=stores.bins(part, from_van),
        draw=draw,
        order=order,
        pack=pack,
        packs=-(-order // (pack or 1)),
        counted=stores.counted(part),
        supplier_ref=price.supplier_ref if price else None,
        gtin=price.gtin if price else None,
        fits=known.fits if known else None,
        instead=tuple(
            PickInstead(
                part=other,
                title=library.parts[other].title if other in library.parts else other,
                how=how,
                in_van=stores.in_van(other),
                in_store=stores.in_store(other),
            )
            for other, how in instead_of(part, library)
        ),
        reasons=tuple(PickReason(job=job, pieces=row.quantity, because=row.because) for job, row in wants),
    )


def _turn(line: PickLine) -> tuple[int, tuple[int, str, tuple[int, ...]], int, str]:
    """What is drawn first, on the way through the store; then what the van has, bin by bin; then what is ordered."""
    if line.draw:
        return (0, on_the_way(line.draw[0].location), 0, line.part)
    if line.bins:
        return (1, on_the_way(line.bins[0].location), 0, line.part)
    group = 2 if line.order else 3
    return (group, (1, "", ()), KINDS.index(line.kind), line.part)
