"""Laws of openings, on problems of any shape."""

import os
import random
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.access.brute_force import small_problem

from splitpin.access.check import check_opening
from splitpin.access.listing import openings
from splitpin.access.problem import AccessProblem, Node
from splitpin.access.result import Opening
from splitpin.access.search import least_opening

problems = st.builds(
    lambda seed, circular, charges, most: small_problem(
        random.Random(seed), circular=circular, charges=charges, most=most, unmeetable=0.02
    ),
    st.integers(0, 2**32),
    st.booleans(),
    st.integers(0, 3),
    st.integers(3, 14),
)


def _renamed(problem: AccessProblem, to: list[int]) -> AccessProblem:
    """The same problem with node n called to[n]."""

    def needs(some: tuple[tuple[frozenset[int], ...], ...]) -> tuple[tuple[frozenset[int], ...], ...]:
        return tuple(tuple(frozenset(to[node] for node in nodes) for nodes in need) for need in some)

    nodes: list[Node] = [Node(0)] * len(to)
    for old, node in enumerate(problem.nodes):
        nodes[to[old]] = replace(node, needs=needs(node.needs))
    return AccessProblem(tuple(nodes), problem.charge_costs, needs(problem.targets))


def _renamed_opening(opening: Opening, to: list[int]) -> Opening:
    return Opening(
        frozenset(to[node] for node in opening.nodes),
        tuple(sorted((owner if owner < 0 else to[owner], need, way) for owner, need, way in opening.choices)),
        tuple(sorted((to[earlier], to[later]) for earlier, later in opening.before)),
        opening.charges,
        opening.cost,
    )


@settings(deadline=None)
@given(problems, st.data())
def test_adding_a_need_never_lowers_the_least_cost(problem: AccessProblem, data: st.DataObject) -> None:
    size = len(problem.nodes)
    number = data.draw(st.integers(0, size - 1))
    alternative = st.frozensets(st.integers(0, size - 1), max_size=2)
    need = tuple(data.draw(st.lists(alternative, min_size=1, max_size=3)))
    node = problem.nodes[number]
    stricter = replace(
        problem,
        nodes=(
            *problem.nodes[:number],
            replace(node, needs=(*node.needs, need)),
            *problem.nodes[number + 1 :],
        ),
    )
    before, after = least_opening(problem), least_opening(stricter)
    assert after.status == "impossible" or (before.status == "proved" and before.bound <= after.bound)


@settings(deadline=None)
@given(problems)
def test_taking_an_alternative_away_never_lowers_the_least_cost(problem: AccessProblem) -> None:
    fewer = replace(problem, targets=tuple(need[1:] if len(need) > 1 else need for need in problem.targets))
    before, after = least_opening(problem), least_opening(fewer)
    assert after.status == "impossible" or (before.status == "proved" and before.bound <= after.bound)


@settings(deadline=None)
@given(problems, st.randoms(use_true_random=False))
def test_renaming_changes_only_names(problem: AccessProblem, rng: random.Random) -> None:
    to = list(range(len(problem.nodes)))
    rng.shuffle(to)
    renamed = _renamed(problem, to)
    here, there = least_opening(problem), least_opening(renamed)
    assert (here.status, here.bound) == (there.status, there.bound)
    if here.opening is not None:
        assert check_opening(renamed, _renamed_opening(here.opening, to)) == []


@settings(deadline=None, max_examples=40)
@given(problems, st.randoms(use_true_random=False))
def test_renaming_changes_only_names_in_the_whole_list(problem: AccessProblem, rng: random.Random) -> None:
    to = list(range(len(problem.nodes)))
    rng.shuffle(to)
    here = [opening for opening, _ in zip(openings(problem), range(400), strict=False)]
    there = [opening for opening, _ in zip(openings(_renamed(problem, to)), range(400), strict=False)]
    assert [opening.cost for opening in here] == [opening.cost for opening in there]
    if len(here) < 400:
        assert {_renamed_opening(opening, to) for opening in here} == set(there)


@settings(deadline=None)
@given(problems)
def test_an_opened_set_holds_nothing_that_nothing_asked_for(problem: AccessProblem) -> None:
    """Each node of the set is in an alternative chosen for a target or for another node of the set."""
    found = [opening for opening, _ in zip(openings(problem), range(60), strict=False)]
    least = least_opening(problem).opening
    assert (least is None) == (not found)
    for opening in found if least is None else (least, *found):
        asked: set[int] = set()
        for owner, need, way in opening.choices:
            asked |= (problem.targets if owner < 0 else problem.nodes[owner].needs)[need][way]
        assert asked == opening.nodes


@settings(deadline=None)
@given(problems)
def test_first_of_the_list_is_the_least_and_none_comes_twice(problem: AccessProblem) -> None:
    found = [opening for opening, _ in zip(openings(problem), range(200), strict=False)]
    assert len({opening.choices for opening in found}) == len(found)
    assert [opening.cost for opening in found] == sorted(opening.cost for opening in found)
    if found:
        assert found[0].cost == least_opening(problem).bound


PROGRAM = """
import itertools, random
from tests.access.brute_force import small_problem
from splitpin.access.listing import openings
from splitpin.access.search import least_opening
for seed in range(60):
    problem = small_problem(random.Random(seed), circular=bool(seed % 2), charges=3, most=12)
    answer = least_opening(problem)
    print(answer.status, answer.bound, answer.causes)
    for opening in itertools.islice(openings(problem), 25):
        print(opening.cost, opening.choices, opening.before)
"""


def test_answers_do_not_depend_on_the_hash_seed(root: Path) -> None:
    printed = {
        subprocess.run(
            [sys.executable, "-c", PROGRAM],
            check=True,
            capture_output=True,
            text=True,
            cwd=root,
            env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2")
    }
    assert len(printed) == 1
    assert len(printed.pop().splitlines()) > 400
