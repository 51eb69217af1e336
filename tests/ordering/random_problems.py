"""Small random problems from a seed, of every shape the room promises to solve."""

import random

from splitpin.ordering.problem import Operation, OrderingProblem, PairwiseProblem


def random_after(chance: random.Random, size: int, *, waits: bool) -> list[tuple[tuple[int, int], ...]]:
    """Precedence along a hidden random numbering, so that the indices themselves say nothing."""
    hidden = chance.sample(range(size), size)
    density = chance.choice((0.0, 0.15, 0.3, 0.5))
    return [
        tuple(
            (earlier, chance.choice((0, 5, 20, 60)) if waits and chance.random() < 0.5 else 0)
            for earlier in range(size)
            if hidden[earlier] < hidden[index] and chance.random() < density
        )
        for index in range(size)
    ]


def random_problem(seed: int, *, waits: bool = False, most: int = 7) -> OrderingProblem:
    """Tool sets that overlap, tools that cost nothing, travel that is not symmetric, operations that take no time."""
    chance = random.Random(f"tools {seed} {waits}")
    size = chance.randint(1, most)
    tools, places = chance.randint(1, 4), chance.randint(1, 3)
    after = random_after(chance, size, waits=waits)
    return OrderingProblem(
        operations=tuple(
            Operation(
                seconds=chance.choice((0, 1, 10, 25)),
                tools=frozenset(chance.sample(range(tools), min(tools, chance.choice((0, 1, 1, 1, 2))))),
                position=chance.choice((None, *range(places), *range(places))),
                after=after[index],
            )
            for index in range(size)
        ),
        pickup_s=tuple(chance.choice((0, 4, 7, 7)) for _ in range(tools)),
        travel_s=tuple(
            tuple(0 if row == column else chance.choice((0, 3, 9)) for column in range(places)) for row in range(places)
        ),
        start_position=chance.randrange(places),
        start_tools=frozenset(chance.sample(range(tools), chance.randint(0, 1))),
    )


def random_pairwise(seed: int, *, waits: bool = False, most: int = 7) -> PairwiseProblem:
    """Change-overs that break the triangle inequality, some of them forbidden."""
    chance = random.Random(f"pairs {seed} {waits}")
    size = chance.randint(1, most)
    forbidden = chance.choice((0.0, 0.1, 0.4))

    def entry() -> int | None:
        return None if chance.random() < forbidden else chance.choice((0, 2, 5, 11, 30))

    return PairwiseProblem(
        seconds=tuple(chance.choice((0, 1, 10)) for _ in range(size)),
        after=tuple(random_after(chance, size, waits=waits)),
        change_s=tuple(tuple(entry() for _ in range(size)) for _ in range(size)),
        start_change_s=tuple(entry() for _ in range(size)),
    )
