"""Random rounds, small enough for the referees."""

import random

from splitpin.supply import Fault, Item, Job, LoadProblem


def a_round(
    rng: random.Random,
    *,
    jobs: int,
    faults: int,
    items: int,
    needs: int = 3,
    stock: int = 2,
    limited: bool = False,
) -> LoadProblem:
    """Items with costs, masses, volumes and some aboard; a few tools; jobs with faults that share the items."""
    rows = tuple(
        Item(
            cost=rng.randint(0, 9),
            mass=rng.randint(0, 9),
            volume=rng.randint(0, 9),
            aboard=rng.choice((0, 0, 0, 1)),
            stock=rng.randint(0, stock),
            used_up=rng.random() < 0.8,
        )
        for _ in range(items)
    )
    visits = []
    for _ in range(jobs):
        causes = []
        for _ in range(rng.randint(1, faults)):
            picked = sorted(rng.sample(range(items), rng.randint(0, min(needs, items))))
            causes.append(Fault(rng.randint(1, 9), tuple((item, rng.choice((1, 1, 2))) for item in picked)))
        visits.append(Job(rng.randint(10, 90), tuple(causes)))
    mass, volume = (rng.randint(items, 2 * items + 5) for _ in range(2))
    return LoadProblem(rows, tuple(visits), mass if limited else None, volume if limited else None)
