"""The choice of spares against a plain dynamic programme over the money, and against a solver of integer programmes."""

import random
from itertools import product

import highspy
import pytest
from tests.highs import exact_solver

from splitpin.supply.need import Need
from splitpin.supply.spares import Spare, best_spares, frontier


def made(seed: int, parts: int, dearest: int = 40) -> list[Spare]:
    chance = random.Random(seed)
    return [
        Spare(
            chance.randint(0 if n == 0 else 1, dearest),
            Need(chance.uniform(0.1, 3), chance.choice((0, 2))).missing(0.05),
        )
        for n in range(parts)
    ]


def least_by_money(spares: list[Spare], money: int) -> float:
    """For each sum the least that is missing, part by part."""
    least = [0.0] * (money + 1)
    for spare in spares:
        least = [
            min(least[m - n * spare.cost] + left for n, left in enumerate(spare.missing) if n * spare.cost <= m)
            for m in range(money + 1)
        ]
    return least[money]


def least_by_solver(spares: list[Spare], money: int) -> float:
    """One variable for each piece: as each takes off less than the one before, their order needs no rule."""
    model = exact_solver(0.0)
    pieces = [(s.cost, s.missing[n] - s.missing[n + 1]) for s in spares for n in range(len(s.missing) - 1)]
    bought = model.addBinaries(len(pieces))
    model.addConstr(sum(cost * x for (cost, _), x in zip(pieces, bought, strict=True)) <= money)
    model.maximize(sum(off * x for (_, off), x in zip(pieces, bought, strict=True)))
    assert model.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return sum(s.missing[0] for s in spares) - model.getObjectiveValue()


@pytest.mark.parametrize("seed", range(40))
def test_no_choice_misses_fewer(seed: int) -> None:
    spares, money = made(seed, 3, 12), seed * 2
    rows = product(*(range(len(spare.missing)) for spare in spares))
    fits = [row for row in rows if sum(s.cost * n for s, n in zip(spares, row, strict=True)) <= money]
    least = min(sum(s.missing[n] for s, n in zip(spares, row, strict=True)) for row in fits)
    kept = best_spares(spares, money)
    assert kept.missing == pytest.approx(least, abs=1e-9)
    assert kept.counts in fits


@pytest.mark.parametrize("seed", range(40))
def test_the_plain_dynamic_programme_agrees(seed: int) -> None:
    spares = made(seed, 12)
    money = 10 * seed
    kept = best_spares(spares, money)
    assert kept.proved and kept.missing == pytest.approx(least_by_money(spares, money), abs=1e-8)
    assert kept.cost == sum(s.cost * n for s, n in zip(spares, kept.counts, strict=True)) <= money
    assert kept.missing == pytest.approx(sum(s.missing[n] for s, n in zip(spares, kept.counts, strict=True)))


@pytest.mark.parametrize("seed", range(10))
def test_a_solver_of_integer_programmes_agrees(seed: int) -> None:
    spares = made(100 + seed, 30, 5_000)
    money = sum(s.cost * (len(s.missing) - 1) for s in spares) * (seed + 1) // 12
    kept = best_spares(spares, money)
    assert kept.proved and kept.missing == pytest.approx(least_by_solver(spares, money), abs=1e-6)


def test_where_the_search_is_cut_short_the_gap_is_true() -> None:
    gaps = []
    for seed in range(10):
        spares = made(seed, 12)
        kept, least = best_spares(spares, 150, most=1), least_by_money(spares, 150)
        assert kept.bound - 1e-9 <= least <= kept.missing + 1e-9
        assert kept.cost <= 150
        assert not kept.proved or kept.missing == pytest.approx(least, abs=1e-8)
        gaps.append(kept.missing - kept.bound)
    assert max(gaps) > 0.001


def test_a_dear_part_that_does_not_fit_leaves_the_money_to_a_cheap_one() -> None:
    a, b = Spare(3, (0.9, 0.3, 0.1)), Spare(2, (0.5, 0.2))
    assert [at for at, _ in frontier([a, b])] == [0, 1, 0]
    assert [best_spares([a, b], money).counts for money in (0, 2, 3, 4, 5, 8)] == [
        (0, 0), (0, 1), (1, 0), (1, 0), (1, 1), (2, 1),
    ]  # fmt: skip


def test_of_equal_choices_the_cheapest_then_the_first() -> None:
    same = Spare(4, (0.5, 0.1))
    assert best_spares([same, same, Spare(7, (0.5, 0.1))], 8).counts == (1, 1, 0)
    assert best_spares([Spare(7, (0.5, 0.1)), same], 7).counts == (0, 1)
    assert best_spares([same, same], 4).counts == (1, 0)


def test_nothing_to_choose_from_and_nothing_to_spend() -> None:
    assert best_spares([], 10).counts == ()
    assert best_spares([Spare(1, (0.5, 0.1))], 0).counts == (0,)
    assert best_spares([Spare(0, (0.5, 0.1))], 0).counts == (1,)
