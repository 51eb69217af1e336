"""Laws of the best order that hold for every problem."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from splitpin.ordering.best import best_order, lower_bound
from splitpin.ordering.check import check_order
from splitpin.ordering.problem import Operation, OrderingProblem, PairwiseProblem
from splitpin.ordering.result import Status

LAGS = st.sampled_from((0, 0, 7, 40))


@st.composite
def tool_problems(draw: st.DrawFn, most: int = 8) -> OrderingProblem:
    size = draw(st.integers(1, most))
    tools, places = draw(st.integers(1, 4)), draw(st.integers(1, 3))
    operations = [
        Operation(
            seconds=draw(st.integers(0, 30)),
            tools=draw(st.frozensets(st.integers(0, tools - 1), max_size=2)),
            position=draw(st.none() | st.integers(0, places - 1)),
            after=tuple((earlier, draw(LAGS)) for earlier in range(index) if draw(st.integers(0, 3)) == 0),
        )
        for index in range(size)
    ]
    return OrderingProblem(
        operations=tuple(operations),
        pickup_s=tuple(draw(st.integers(0, 9)) for _ in range(tools)),
        travel_s=tuple(
            tuple(0 if row == column else draw(st.integers(0, 12)) for column in range(places)) for row in range(places)
        ),
    )


@st.composite
def pairwise_problems(draw: st.DrawFn, most: int = 7) -> PairwiseProblem:
    size = draw(st.integers(1, most))
    entries = st.none() | st.integers(0, 20)
    return PairwiseProblem(
        seconds=tuple(draw(st.integers(0, 9)) for _ in range(size)),
        after=tuple(
            tuple((earlier, draw(LAGS)) for earlier in range(index) if draw(st.integers(0, 3)) == 0)
            for index in range(size)
        ),
        change_s=tuple(tuple(draw(entries) for _ in range(size)) for _ in range(size)),
        start_change_s=tuple(draw(entries) for _ in range(size)),
    )


def with_rule(problem, earlier: int, later: int, lag: int):
    """The problem with one rule more."""
    if isinstance(problem, PairwiseProblem):
        after = list(problem.after)
        after[later] = (*after[later], (earlier, lag))
        return replace(problem, after=tuple(after))
    operations = list(problem.operations)
    operations[later] = replace(operations[later], after=(*operations[later].after, (earlier, lag)))
    return replace(problem, operations=tuple(operations))


@settings(max_examples=150, deadline=None)
@given(tool_problems() | pairwise_problems(), st.data())
def test_adding_a_rule_never_lowers_the_least_time(problem, data: st.DataObject) -> None:
    size = len(problem.seconds if isinstance(problem, PairwiseProblem) else problem.operations)
    earlier, later = data.draw(st.integers(0, size - 1)), data.draw(st.integers(0, size - 1))
    free, ruled = best_order(problem), best_order(with_rule(problem, earlier, later, data.draw(LAGS)))
    if free.status is Status.IMPOSSIBLE:
        assert ruled.status is Status.IMPOSSIBLE
    elif ruled.status is not Status.IMPOSSIBLE:
        assert free.elapsed_s <= ruled.elapsed_s


@settings(max_examples=100, deadline=None)
@given(tool_problems(), st.data())
def test_renumbering_tools_and_positions_in_any_order_changes_no_second(
    problem: OrderingProblem, data: st.DataObject
) -> None:
    tools = data.draw(st.permutations(range(len(problem.pickup_s))))
    places = data.draw(st.permutations(range(len(problem.travel_s))))
    renamed = OrderingProblem(
        operations=tuple(
            replace(
                operation,
                tools=frozenset(tools.index(tool) for tool in operation.tools),
                position=None if operation.position is None else places.index(operation.position),
            )
            for operation in problem.operations
        ),
        pickup_s=tuple(problem.pickup_s[tool] for tool in tools),
        travel_s=tuple(tuple(problem.travel_s[row][column] for column in places) for row in places),
        start_position=places.index(problem.start_position),
    )
    assert best_order(renamed).elapsed_s == best_order(problem).elapsed_s


@settings(max_examples=100, deadline=None)
@given(tool_problems(), st.data())
def test_renumbering_operations_changes_no_second(problem: OrderingProblem, data: st.DataObject) -> None:
    turn = data.draw(st.permutations(range(len(problem.operations))))
    renamed = replace(
        problem,
        operations=tuple(
            replace(
                problem.operations[old],
                after=tuple((turn.index(earlier), lag) for earlier, lag in problem.operations[old].after),
            )
            for old in turn
        ),
    )
    assert best_order(renamed).elapsed_s == best_order(problem).elapsed_s


@settings(max_examples=100, deadline=None)
@given(tool_problems())
def test_tools_and_positions_that_nobody_uses_change_nothing(problem: OrderingProblem) -> None:
    """A tool and a position more, numbered before all others: only the names move up."""
    wider = OrderingProblem(
        operations=tuple(
            replace(
                operation,
                tools=frozenset(tool + 1 for tool in operation.tools),
                position=None if operation.position is None else operation.position + 1,
            )
            for operation in problem.operations
        ),
        pickup_s=(3, *problem.pickup_s),
        travel_s=((0, *(99 for _ in problem.travel_s)), *((99, *row) for row in problem.travel_s)),
        start_position=problem.start_position + 1,
    )
    assert best_order(wider) == best_order(problem)


@settings(max_examples=100, deadline=None)
@given(tool_problems(), st.integers(2, 5))
def test_times_that_are_all_k_times_as_long_take_k_times_as_long(problem: OrderingProblem, k: int) -> None:
    longer = replace(
        problem,
        operations=tuple(
            replace(
                operation,
                seconds=k * operation.seconds,
                after=tuple((earlier, k * lag) for earlier, lag in operation.after),
            )
            for operation in problem.operations
        ),
        pickup_s=tuple(k * seconds for seconds in problem.pickup_s),
        travel_s=tuple(tuple(k * seconds for seconds in row) for row in problem.travel_s),
    )
    assert best_order(longer).elapsed_s == k * best_order(problem).elapsed_s


@settings(max_examples=150, deadline=None)
@given(tool_problems() | pairwise_problems())
def test_the_check_finds_the_same_seconds_and_the_bound_never_overstates(problem) -> None:
    result = best_order(problem)
    if result.status is Status.IMPOSSIBLE:
        return
    seen = check_order(problem, result.order)
    assert seen.legal
    assert (seen.starts_s, seen.ends_s, seen.elapsed_s, seen.hands_on_s) == (
        result.starts_s,
        result.ends_s,
        result.elapsed_s,
        result.hands_on_s,
    )
    assert lower_bound(problem) <= result.bound_s == result.elapsed_s


@settings(max_examples=60, deadline=None)
@given(tool_problems() | pairwise_problems())
def test_a_search_that_is_stopped_at_once_still_brackets_the_best(problem) -> None:
    best, stopped = best_order(problem), best_order(problem, stop=lambda: True)
    if best.status is Status.IMPOSSIBLE:
        assert stopped.order == ()
    else:
        assert stopped.bound_s <= best.elapsed_s
        assert not stopped.order or stopped.elapsed_s >= best.elapsed_s
