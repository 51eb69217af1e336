"""The block rule: covers that nest. Opening a cover pays only together with the checks it brings within reach.

A cover and the checks behind it form a tree; the sequence with the least weighted sum of finding times under a tree of
"before" is W. A. Horn's (SIAM Journal on Applied Mathematics 23 (1972) 189-202): join the block of the greatest weight
per second to the block it must follow, until none is left. With one level of covers it is the rule for checks behind
a panel that can stay open (T. J. Ottosen and F. V. Jensen, arXiv 1203.3502). Both from memory.

By hand: B (weight 25, 5 s) and D (15, 3 s) behind a panel of 15 s, A (35, 20 s) in the open. Panel, B and D together
bring 40 in 23 s = 1.739 a second, less than A's 1.75: A comes first.
"""

from dataclasses import dataclass, field

from splitpin.faults.problem import CheckProblem


@dataclass(slots=True)
class _Block:
    weight: int
    seconds: int
    first: int  # the number of its first node: ties go to the file's order
    suspects: list[int] = field(default_factory=list)
    after: "_Block | None" = None


def groups(problem: CheckProblem) -> dict[frozenset[int], int]:
    """Openings that the same suspects need, taken as one: suspects to seconds.

    Openings that nobody needs or that cost nothing fall away.
    """
    found: dict[frozenset[int], int] = {}
    for opening, seconds in enumerate(problem.opening_seconds):
        users = frozenset(suspect for suspect, needed in enumerate(problem.behind) if opening in needed)
        if users and seconds:
            found[users] = found.get(users, 0) + seconds
    return found


def nested(problem: CheckProblem) -> bool:
    """Whether any two groups of suspects behind common openings are apart or one holds the other."""
    sets = list(groups(problem))
    return all(not (a & b) or a <= b or b <= a for n, a in enumerate(sets) for b in sets[n + 1 :])


def block_order(problem: CheckProblem) -> tuple[int, ...]:
    """The best sequence where covers nest; time grows with the square of suspects plus openings.

    Raises ValueError where they do not nest, or where a check's seconds depend on the sequence.
    """
    if not nested(problem) or not problem.settled():
        raise ValueError("the openings do not nest")
    covers = sorted(groups(problem).items(), key=lambda item: (-len(item[0]), min(item[0])))
    blocks: list[_Block] = []
    of_group: list[tuple[frozenset[int], _Block]] = []
    for users, seconds in covers:  # larger groups first, so that the last group that holds this one is the closest
        block = _Block(0, seconds, min(users), after=_closest(of_group, users))
        of_group.append((users, block))
        blocks.append(block)
    for suspect, (weight, seconds) in enumerate(zip(problem.weights, problem.seconds, strict=True)):
        after = _closest(of_group, frozenset({suspect}))
        blocks.append(_Block(weight, seconds + problem.interrupted(suspect, frozenset()), suspect, [suspect], after))
    return _merged(blocks)


def _closest(of_group: list[tuple[frozenset[int], _Block]], users: frozenset[int]) -> _Block | None:
    return next((block for group, block in reversed(of_group) if users <= group), None)


def _merged(blocks: list[_Block]) -> tuple[int, ...]:
    """Blocks joined to what they follow, greatest weight per second first, until all are free."""
    done: list[int] = []
    while blocks:
        best = blocks[0]
        for block in blocks[1:]:
            if _before(block, best):
                best = block
        blocks.remove(best)
        if best.after is None:
            done += best.suspects
            joined = None
        else:
            joined = best.after
            joined.weight += best.weight
            joined.seconds += best.seconds
            joined.suspects += best.suspects
        for block in blocks:
            if block.after is best:
                block.after = joined
    return tuple(done)


def _before(one: _Block, other: _Block) -> bool:
    left, right = one.weight * other.seconds, other.weight * one.seconds
    if left != right:
        return left > right
    return one.first < other.first
