"""Operations that are alike take turns: which of them comes first would change nothing but names.

Two operations are twins when they need the same tools at the same place for the same seconds, no wait starts from or
ends at either, and whatever comes before the first comes before the second, whatever comes after the second comes
after the first. Exchanging them in an order that has the second first breaks no rule and moves no second, so some best
order has the first first. By hand: three screws of 65 s that nothing waits for can be put into a wait in two to the
power of three ways; taking turns leaves four. Our own rule; without waits `bundles` does more.
"""

from splitpin.ordering.precedence import Precedence, bits
from splitpin.ordering.problem import Operation


def turns_of_twins(operations: list[Operation], precedence: Precedence) -> list[tuple[int, int]]:
    """Pairs (earlier, later) of operations as the precedence numbers them. Cost: square of the operations, times a few
    rounds.
    """
    before, after = list(precedence.ancestors), list(precedence.descendants)
    waiting = precedence.starters | sum(
        1 << index for index, lags in enumerate(precedence.lags) if any(map(_lag, lags))
    )
    alike: dict[tuple[int, int | None, frozenset[int]], list[int]] = {}
    for index, operation in enumerate(operations):
        if not waiting >> index & 1:
            alike.setdefault((operation.seconds, operation.position, operation.tools), []).append(index)
    found = []
    changed = True
    while changed:
        changed = False
        for twins in alike.values():
            for first in twins:
                for second in twins:
                    tied = first == second or (before[second] | after[second]) >> first & 1
                    if tied or before[first] & ~before[second] or after[second] & ~after[first]:
                        continue
                    found.append((first, second))
                    changed = True
                    upward, downward = before[first] | 1 << first, after[second] | 1 << second
                    for index in bits(upward):
                        after[index] |= downward
                    for index in bits(downward):
                        before[index] |= upward
    return found


def _lag(pair: tuple[int, int]) -> int:
    return pair[1]
