"""The least-cost choice of one entry per row and column of a square, and the prices that prove it.

By hand: [[1, 2], [3, 5]] is best at 2 + 3 = 5; row prices 2 and 4 with column prices -1 and 0 add up to 5 and no
entry is less than its row's price plus its column's. Exact: the prices are a solution of the dual programme. Source:
Kuhn 1955 and Munkres 1957, in the form with shortest augmenting paths (from memory).
"""

from collections.abc import Sequence

from splitpin.ordering.hands import FORBIDDEN


def prices(cost: Sequence[Sequence[int]]) -> tuple[list[int], list[int]]:
    """Row and column prices whose sum is the least cost; cost[r][c] - row[r] - column[c] is never negative.

    FORBIDDEN entries are taken only where nothing else is left. Cost: cube of the size.
    """
    size = len(cost)
    rows, columns = [0] * (size + 1), [0] * (size + 1)
    taken_by = [0] * (size + 1)
    for row in range(1, size + 1):
        taken_by[0] = row
        column = 0
        least = [size * 4 * FORBIDDEN] * (size + 1)
        reached_from = [0] * (size + 1)
        reached = [False] * (size + 1)
        while True:
            reached[column] = True
            owner = taken_by[column]
            entries, price = cost[owner - 1], rows[owner]
            step, nearest = size * 8 * FORBIDDEN, 0
            for other in range(1, size + 1):
                if not reached[other]:
                    slack = entries[other - 1] - price - columns[other]
                    if slack < least[other]:
                        least[other], reached_from[other] = slack, column
                    if least[other] < step:
                        step, nearest = least[other], other
            for other in range(size + 1):
                if reached[other]:
                    rows[taken_by[other]] += step
                    columns[other] -= step
                else:
                    least[other] -= step
            column = nearest
            if taken_by[column] == 0:
                break
        while column:
            taken_by[column] = taken_by[reached_from[column]]
            column = reached_from[column]
    return rows[1:], columns[1:]
