"""In which order the drawn pieces go into the van: heavy ones low and against the bulkhead, then the last job first.

So what the first job needs lies by the door, and what is heavy cannot come forward. Our own rule, after what police and
vehicle authorities tell drivers of vans; the van's plate, its axles and the lashing of the load are the driver's to
check.
"""

from collections.abc import Sequence

from splitpin.records.supply import LoadLine, LoadStep

HEAVY_KG = 10.0  # of one piece; our own rule


def stowed(lines: Sequence[LoadLine], jobs: Sequence[str]) -> tuple[LoadStep, ...]:
    """The drawn pieces in the order in which they go in. A part for several jobs lies with the first that may use it.

    `jobs` are the references in visiting order.
    """
    turn = {job: n for n, job in enumerate(jobs)}
    rows = []
    for line in lines:
        pieces = sum(place.pieces for place in line.draw)
        if not pieces:
            continue
        first = min(line.jobs, key=turn.__getitem__)
        heavy = line.mass_kg is not None and line.mass_kg >= HEAVY_KG
        rows.append((not heavy, -turn[first], -(line.mass_kg or 0.0), line.part, line, pieces, first))
    steps = []
    for n, (light, behind, _, _, line, pieces, job) in enumerate(sorted(rows, key=lambda row: row[:4]), 1):
        where = "on top, by the door" if behind == 0 else "light, above"
        if not light:
            where = "on the floor, against the bulkhead"
        elif line.mass_kg is not None and line.mass_kg >= HEAVY_KG / 3:
            where = "low, by the door" if behind == 0 else "low"
        steps.append(
            LoadStep(n=n, part=line.part, title=line.title, pieces=pieces, mass_kg=line.mass_kg, job=job, where=where)
        )
    return tuple(steps)
