"""Prices add up to the least assignment and never exceed an entry."""

import random
from itertools import permutations

from splitpin.ordering.assignment import prices
from splitpin.ordering.hands import FORBIDDEN


def test_prices_prove_the_least_assignment_of_random_squares():
    chance = random.Random(1)
    for _ in range(200):
        size = chance.randint(1, 5)
        cost = [[chance.choice((FORBIDDEN, *range(12))) for _ in range(size)] for _ in range(size)]
        least = min(sum(cost[row][column] for row, column in enumerate(chosen)) for chosen in permutations(range(size)))
        rows, columns = prices(cost)
        assert sum(rows) + sum(columns) == least
        assert all(cost[row][column] >= rows[row] + columns[column] for row in range(size) for column in range(size))
