"""The best load: published and worked cases, brute force, and the independent check on every answer."""

import itertools
import json
import random
from math import prod
from pathlib import Path
from typing import Any

import pytest
from tests.supply.brute_force import least_cost, loads
from tests.supply.made import a_round

from splitpin.supply import Fault, Item, Job, LoadProblem, best_load, chances_of
from splitpin.supply.check import expected_cost, faults_of
from splitpin.supply.result import SCALE


@pytest.fixture(scope="module")
def kits(reference: Path) -> dict[str, Any]:
    return json.loads((reference / "data" / "repair_kit_examples.json").read_text(encoding="utf-8"))


def kit(problem: LoadProblem) -> tuple[set[int], float]:
    """The items carried, and the cost, of the best load; checked and proved."""
    load = best_load(problem)
    assert load.proved and faults_of(problem, load) == []
    return {item for item, n in enumerate(load.counts) if n}, load.cost / SCALE


def test_the_published_project_selection_case() -> None:
    # Encyclopaedia article "Max-flow min-cut theorem", section on project selection: cut 250, projects 2 and 3.
    machines = tuple(Item(cost=cost, stock=1) for cost in (200, 100, 50))
    projects = ((100, (0, 1)), (200, (1,)), (150, (2,)))
    faults = tuple(Fault(worth, tuple((machine, 1) for machine in needs)) for worth, needs in projects)
    assert kit(LoadProblem(machines, (Job(450, faults),))) == ({1, 2}, 250)


def independent(case: dict[str, Any]) -> LoadProblem:
    """One job whose parts are needed independently of each other: a fault for each set of parts."""
    chances = [round(chance * 100) for chance in case["prob_needed"]]
    faults = []
    for needed in itertools.product((False, True), repeat=len(chances)):
        weight = prod(p if yes else 100 - p for p, yes in zip(chances, needed, strict=True))
        faults.append(Fault(weight, tuple((item, 1) for item, yes in enumerate(needed) if yes)))
    items = tuple(Item(cost=round(cost * 100), stock=1) for cost in case["holding"])
    return LoadProblem(items, (Job(round(case["penalty"] * 100), tuple(faults)),))


def test_independent_needs_are_carried_in_the_order_of_holding_cost_and_chance(kits: dict[str, Any]) -> None:
    # RK1 of the reference data, constructed, optimum by brute force. The best kit is a prefix in the order h(1-p)/p:
    # form after Smith, Chambers and Shlifer (1980).
    case = kits["ex_RK1_independent_parts"]
    problem = independent(case)
    found, cost = kit(problem)
    assert {item + 1 for item in found} == set(case["optimal_kit"])
    assert cost / 100 == pytest.approx(case["optimal_cost"], abs=1e-6)
    for row in case["prefixes_in_ratio_order"]:
        counts = tuple(int(item + 1 in row["kit"]) for item in range(len(problem.items)))
        assert expected_cost(problem, counts) / 100 == pytest.approx(row["cost"], abs=1e-6)
        assert chances_of(problem, counts).jobs[0] == pytest.approx(row["job_fill"], abs=1e-6)
    assert set(case["optimal_kit"]) in [set(row["kit"]) for row in case["prefixes_in_ratio_order"]]


@pytest.mark.parametrize("seed", range(40))
def test_with_independent_needs_the_best_kit_is_a_prefix(seed: int) -> None:
    rng = random.Random(seed)
    case = {
        "holding": [rng.randint(1, 900) / 100 for _ in range(6)],
        "prob_needed": [rng.randint(1, 40) / 100 for _ in range(6)],
        "penalty": rng.randint(10, 90),
    }
    ratio = [h * (1 - p) / p for h, p in zip(case["holding"], case["prob_needed"], strict=True)]  # type: ignore[call-overload]
    order = sorted(range(6), key=ratio.__getitem__)
    problem = independent(case)
    _, cost = kit(problem)
    prefixes = [tuple(int(order.index(item) < n) for item in range(6)) for n in range(7)]
    assert cost == pytest.approx(min(expected_cost(problem, counts) for counts in prefixes), abs=1e-4)


def job_types(case: dict[str, Any], penalty: int) -> LoadProblem:
    names = list(case["parts_holding"])
    faults = [
        Fault(round(row["prob"] * 100), tuple((names.index(part), 1) for part in row["parts"]))
        for row in case["jobs"].values()
    ]
    faults.append(Fault(round(case["no_parts_prob"] * 100)))
    items = tuple(Item(cost=cost, stock=1) for cost in case["parts_holding"].values())
    return LoadProblem(items, (Job(penalty, tuple(faults)),))


def one_part_greedy(problem: LoadProblem) -> tuple[tuple[int, ...], float]:
    """Add the one part that saves most, as long as one does."""
    counts = (0,) * len(problem.items)
    while True:
        cost = expected_cost(problem, counts)
        more = [tuple(n + (item == extra) for item, n in enumerate(counts)) for extra, n in enumerate(counts) if not n]
        best = min(more, key=lambda one: expected_cost(problem, one), default=counts)
        if expected_cost(problem, best) >= cost - 1e-9:
            return counts, cost
        counts = best


def test_job_types_with_pairs_beat_one_part_at_a_time(kits: dict[str, Any]) -> None:
    # RK2 of the reference data, constructed after the job types of Mamer and Smith (1982); all 32 kits by brute force.
    case = kits["ex_RK2_job_types"]
    names = "".join(case["parts_holding"])
    for row in case["by_penalty"]:
        problem = job_types(case, row["penalty"])
        found, cost = kit(problem)
        assert "".join(names[item] for item in sorted(found)) == row["optimal"]
        assert cost == pytest.approx(row["cost"], abs=1e-6)
        greedy, dearer = one_part_greedy(problem)
        assert "".join(name for name, n in zip(names, greedy, strict=True) if n) == row["one_part_greedy"]
        assert dearer == pytest.approx(row["greedy_cost"], abs=1e-6)
    at_60 = job_types(case, 60)
    assert (kit(at_60)[1], one_part_greedy(at_60)[1]) == (26.0, pytest.approx(32.80))


def test_kits_nest_as_the_penalty_grows(kits: dict[str, Any]) -> None:
    # Brumelle and Granot (1993), visible in RK2.
    before: set[int] = set()
    for penalty in range(0, 120, 3):
        now, _ = kit(job_types(kits["ex_RK2_job_types"], penalty))
        assert before <= now
        before = now


def tour(stock: tuple[int, int]) -> LoadProblem:
    """Three jobs, each in need of one piece of the first item (0.3) and of the second (0.2), independently."""
    faults = (Fault(56), Fault(24, ((0, 1),)), Fault(14, ((1, 1),)), Fault(6, ((0, 1), (1, 1))))
    return LoadProblem(tuple(Item(stock=n) for n in stock), (Job(1, faults),) * 3)


def test_jobs_of_a_tour_share_the_stock_all_or_nothing(kits: dict[str, Any]) -> None:
    # RK3 of the reference data: job fill, part fill and the chance of all three; stock rule of Bijvank et al. (2010).
    rows = [row for row in kits["ex_RK3_tour"]["results"] if row["policy"] == "all_or_nothing"]
    for row in rows:
        problem = tour(tuple(row["stock"]))
        chances = chances_of(problem, tuple(row["stock"]))
        assert chances.given_up == 0
        assert chances.expected / 3 == pytest.approx(row["job_fill"], abs=1e-6)
        assert chances.every == pytest.approx(row["prob_all_jobs_done"], abs=1e-6)
        for item, asked in ((0, 0.3 * 3), (1, 0.2 * 3)):
            supplied = sum(
                fault.weight / 100 * done
                for job, row_done in zip(problem.jobs, chances.faults, strict=True)
                for fault, done in zip(job.faults, row_done, strict=True)
                for needed, _ in fault.needs
                if needed == item
            )
            assert supplied / asked == pytest.approx(row["part_fill"][item], abs=1e-6)


def test_what_is_optimised_counts_pieces_of_unfinished_jobs_as_gone(kits: dict[str, Any]) -> None:
    # The cautious rule is RK3's "take what there is" where every need is of one piece. With none of one item in stock
    # they differ: who needs that item cannot be cured, and then takes nothing of the other either.
    rows = [row for row in kits["ex_RK3_tour"]["results"] if row["policy"] == "take_what_there_is"]
    rows = [row for row in rows if 0 not in row["stock"] or not any(row["stock"])]
    assert len(rows) == 6
    for row in rows:
        problem = tour(tuple(row["stock"]))
        load = best_load(problem)
        assert faults_of(problem, load) == []
        assert 1 - load.cost / SCALE / 3 == pytest.approx(row["job_fill"], abs=1e-6)
        assert load.counts == tuple(row["stock"])


def test_more_aboard_is_not_always_better() -> None:
    """Job 1 needs A, B and C, job 2 A, job 3 B. Without C, 2 and 3 are finished; with it job 1 takes their pieces."""
    items = (Item(stock=1),) * 3
    faults = (Fault(1, ((0, 1), (1, 1), (2, 1))), Fault(1, ((0, 1),)), Fault(1, ((1, 1),)))
    problem = LoadProblem(items, tuple(Job(1, (fault,)) for fault in faults))
    assert chances_of(problem, (1, 1, 0)).expected == 2
    assert chances_of(problem, (1, 1, 1)).expected == 1


def test_what_the_module_says_by_hand() -> None:
    def board(cost: int) -> LoadProblem:
        return LoadProblem((Item(cost=cost, stock=1),), (Job(60, (Fault(1, ((0, 1),)), Fault(1))),))

    assert kit(board(20)) == ({0}, 20)
    assert kit(board(40)) == (set(), 30)
    assert kit(board(30)) == (set(), 30)  # of equals the smallest
    two = LoadProblem((Item(stock=1),), (Job(1, (Fault(1, ((0, 1),)), Fault(1))),) * 2)
    chances = chances_of(two, (1,))
    assert (chances.jobs, chances.every) == ((1.0, 0.75), 0.75)


def test_a_limit_by_hand() -> None:
    items = (Item(mass=3, stock=1), Item(mass=3, stock=1))
    problem = LoadProblem(items, (Job(30, (Fault(1, ((0, 1),)),)), Job(20, (Fault(1, ((1, 1),)),))), mass=4)
    assert kit(problem) == ({0}, 20)


def test_a_tool_serves_every_job_and_a_part_only_one() -> None:
    jobs = (Job(10, (Fault(1, ((0, 1),)),)),) * 3
    assert kit(LoadProblem((Item(cost=1, stock=3),), jobs)) == ({0}, 3)
    assert kit(LoadProblem((Item(cost=1, stock=3, used_up=False),), jobs)) == ({0}, 1)


def test_what_lies_in_the_van_costs_nothing_more() -> None:
    problem = LoadProblem((Item(cost=5, mass=9, aboard=1, stock=1),), (Job(8, (Fault(1, ((0, 1),)),)),) * 2, mass=0)
    load = best_load(problem)
    assert (load.counts, load.drawn, load.cost) == ((1,), (0,), 8 * SCALE)


def test_nothing_to_decide_is_an_answer_too() -> None:
    assert best_load(LoadProblem((), ())).cost == 0
    alone = best_load(LoadProblem((Item(),), (Job(7, (Fault(1, ((0, 1),)),)),)))
    assert (alone.counts, alone.cost, alone.proved) == ((0,), 7 * SCALE, True)


@pytest.mark.parametrize("seed", range(150))
def test_no_load_is_better_by_brute_force(seed: int) -> None:
    rng = random.Random(seed)
    problem = a_round(rng, jobs=3, faults=3, items=5, limited=seed % 2 == 1)
    load = best_load(problem)
    assert load.proved and faults_of(problem, load) == []
    assert load.cost / SCALE == pytest.approx(least_cost(problem), abs=1e-4)


@pytest.mark.parametrize("seed", range(60))
def test_chances_by_going_through_every_case(seed: int) -> None:
    rng = random.Random(seed)
    problem = a_round(rng, jobs=5, faults=3, items=4)
    counts = rng.choice(list(loads(problem)))
    chances = chances_of(problem, counts)
    carried = sum(max(0, n - item.aboard) * item.cost for n, item in zip(counts, problem.items, strict=True))
    missed = sum(job.penalty * (1 - chance) for job, chance in zip(problem.jobs, chances.jobs, strict=True))
    assert carried + missed == pytest.approx(expected_cost(problem, counts, all_or_nothing=True))


@pytest.mark.parametrize("seed", range(60))
def test_all_or_nothing_finishes_at_least_what_the_cautious_rule_counts(seed: int) -> None:
    problem = a_round(random.Random(seed), jobs=4, faults=3, items=4)
    load = best_load(problem)
    assert expected_cost(problem, load.counts, all_or_nothing=True) <= load.cost / SCALE + 1e-6


def test_a_stopped_search_gives_a_load_that_fits_and_a_true_bound() -> None:
    for seed in range(30):
        problem = a_round(random.Random(seed), jobs=6, faults=3, items=12, limited=True)
        stopped, whole = best_load(problem, lambda: True), best_load(problem)
        assert faults_of(problem, stopped) == []
        assert whole.proved
        assert stopped.bound <= whole.cost <= stopped.cost


def test_faults_that_are_no_faults_are_refused() -> None:
    with pytest.raises(ValueError, match=r"^a weight is 1 or more$"):
        Fault(0)
    with pytest.raises(ValueError, match=r"^a need is of 1 piece or more$"):
        Fault(1, ((0, 0),))
    with pytest.raises(ValueError, match=r"^an item is needed twice by one fault$"):
        Fault(1, ((0, 1), (0, 1)))
    with pytest.raises(ValueError, match=r"^a job has a penalty of 0 or more and at least one fault$"):
        Job(1, ())
    with pytest.raises(ValueError, match=r"^an item that is not there$"):
        LoadProblem((), (Job(1, (Fault(1, ((0, 1),)),)),))
    with pytest.raises(ValueError, match=r"^a limit is 0 or more$"):
        LoadProblem((), (), mass=-1)
    with pytest.raises(ValueError, match=r"^the figures of an item are 0 or more$"):
        Item(cost=-1)
