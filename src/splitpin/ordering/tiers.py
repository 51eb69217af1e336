"""Among the orders that end as soon: the fewest hands-on seconds, and among those the fewest changes.

By hand: driver, spanner, driver at 10 s a pick-up while a wait of an hour runs ends no later than driver, driver,
spanner; it is 10 s more of work that is charged. Spanner at the front, then at the side, then driver at the side makes
one change less than spanner at the front, driver at the front, both at the side.

First the order of the least toll as if no wait took time: where it ends in time it is the answer, and its toll is a
bound in any case. Otherwise the search of `thrift` follows. Our own rules.
"""

from dataclasses import replace

from splitpin.ordering.changes import Stop
from splitpin.ordering.clock import turns
from splitpin.ordering.hands import Hands, ToolsAndPositions
from splitpin.ordering.precedence import Precedence
from splitpin.ordering.problem import Problem
from splitpin.ordering.result import OrderResult, Status
from splitpin.ordering.setups import Setups
from splitpin.ordering.thrift import Thrift

MORE_STATES = (4, 5_000)
"""The later proofs may expand so many times the states of the first, and so many more. Chosen by trial."""


def thriftiest(problem: Problem, hands: Hands, precedence: Precedence, soonest: OrderResult, stop: Stop) -> OrderResult:
    """The same elapsed time with the least toll; how far that is proved is said in the result."""
    number = {index: place for place, index in enumerate(precedence.original)}
    order = tuple(number[index] for index in soonest.order)
    limit, bound = toll_of(hands, order), 0
    most = MORE_STATES[0] * soonest.explored + MORE_STATES[1]
    explored = 0
    if isinstance(hands, ToolsAndPositions):
        setups = Setups(hands.tolls, precedence.ancestors)
        found, paid, bound = setups.run(lambda: setups.explored > most or stop(), limit)
        explored = setups.explored
        if paid < limit and told(problem, precedence, found, 0, 0).elapsed_s <= soonest.elapsed_s:
            order, limit = found, paid
    if bound < limit and precedence.starters:
        thrift = Thrift(hands, precedence, soonest.elapsed_s)
        better, bound = thrift.run(lambda: thrift.explored > most or stop(), limit, bound)
        explored += thrift.explored
        order = better or order
    result = told(problem, precedence, order, soonest.bound_s, soonest.explored + explored)
    least_setups, fewest = divmod(bound, hands.most_changes)
    hands_on_bound_s = min(max(result.hands_on_bound_s, sum(hands.seconds) + least_setups), result.hands_on_s)
    return replace(
        result,
        hands_on_bound_s=hands_on_bound_s,
        changes_bound=fewest if sum(hands.seconds) + least_setups == result.hands_on_s else 0,
    )


def toll_of(hands: Hands, order: tuple[int, ...]) -> int:
    """The toll of all change-overs of an order."""
    stance, toll = hands.start, 0
    for index in order:
        after = hands.row(stance)[1][index]
        toll += hands.tolls.steps(stance)[after]
        stance = after
    return toll


def told(problem: Problem, precedence: Precedence, order: tuple[int, ...], bound: int, explored: int) -> OrderResult:
    """The order with its times: every operation as early as the ones before it allow. bound: on the elapsed time."""
    numbers = tuple(precedence.original[index] for index in order)
    clock = turns(problem, numbers)
    elapsed = clock[-1].end_s if clock else 0
    hands_on = elapsed - sum(turn.idle_s for turn in clock)
    setups = sum(turn.setup.seconds for turn in clock)
    return OrderResult(
        status=Status.PROVED if elapsed <= bound else Status.BOUNDED,
        order=numbers,
        starts_s=tuple(turn.work_s for turn in clock),
        ends_s=tuple(turn.end_s for turn in clock),
        elapsed_s=elapsed,
        hands_on_s=hands_on,
        changes=sum(turn.setup.changes for turn in clock),
        bound_s=bound,
        hands_on_bound_s=hands_on - setups if precedence.starters else bound,
        explored=explored,
    )
