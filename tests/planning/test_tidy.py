"""Tidying keeps the end, keeps the rules, and leaves no idle time that an act could fill."""

from hypothesis import given
from hypothesis import strategies as st

from splitpin.ordering.best import best_order
from splitpin.ordering.check import check_order
from splitpin.ordering.problem import Operation, OrderingProblem
from splitpin.planning.best.tidy import tidy


def test_the_panel_comes_off_during_the_cool_down() -> None:
    start_cooling, read_temperature, panel, work = range(4)
    problem = OrderingProblem(
        operations=(
            Operation(seconds=10),
            Operation(seconds=10, after=((start_cooling, 900),)),
            Operation(seconds=60),
            Operation(seconds=60, after=((read_temperature, 0), (panel, 0))),
        ),
        pickup_s=(),
        travel_s=((0,),),
    )
    idle_first = (start_cooling, read_temperature, panel, work)
    assert check_order(problem, idle_first).elapsed_s == 1040
    busy_first = tidy(problem, (start_cooling, read_temperature, panel, work))
    assert busy_first == idle_first  # with the panel first it would end earlier: what is not best is left alone
    best = best_order(problem)
    assert tidy(problem, best.order) == (start_cooling, panel, read_temperature, work)


@st.composite
def problems(draw: st.DrawFn) -> OrderingProblem:
    operations = []
    for index in range(draw(st.integers(2, 9))):
        before = draw(st.lists(st.integers(0, index - 1), max_size=2, unique=True)) if index else []
        operations.append(
            Operation(
                seconds=draw(st.integers(0, 30)),
                tools=frozenset(draw(st.sets(st.integers(0, 2), max_size=2))),
                position=draw(st.sampled_from([None, 0, 1])),
                after=tuple(sorted((b, draw(st.sampled_from([0, 0, 60]))) for b in before)),
            )
        )
    return OrderingProblem(tuple(operations), (5, 6, 7), ((0, 8), (8, 0)))


@given(problems())
def test_tidying_costs_nothing_and_breaks_nothing(problem: OrderingProblem) -> None:
    best = best_order(problem)
    verdict = check_order(problem, tidy(problem, best.order))
    assert verdict.legal
    assert verdict.elapsed_s == best.elapsed_s
