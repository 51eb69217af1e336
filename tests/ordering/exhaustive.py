"""Every legal order, one after the other: the best and the most elapsed seconds, straight from the definition."""

from splitpin.ordering.problem import OrderingProblem, PairwiseProblem


def extremes(problem: OrderingProblem | PairwiseProblem) -> tuple[int, int] | None:
    """Least and most elapsed seconds over all legal orders, None when there is none."""
    found = all_orders(problem)
    return (min(found)[0], max(found)[0]) if found else None


def all_orders(problem: OrderingProblem | PairwiseProblem) -> set[tuple[int, int, int]]:
    """Elapsed seconds, hands-on seconds, changes of tools and position of every legal order. For up to eight
    operations or so.
    """
    pairwise = isinstance(problem, PairwiseProblem)
    after = problem.after if pairwise else [operation.after for operation in problem.operations]
    seconds = problem.seconds if pairwise else [operation.seconds for operation in problem.operations]
    found: set[tuple[int, int, int]] = set()

    def setup(last, held, place, index):
        if pairwise:
            return problem.start_change_s[index] if last is None else problem.change_s[last][index]
        operation = problem.operations[index]
        total = sum(problem.pickup_s[tool] for tool in operation.tools if tool not in held)
        return total + (0 if operation.position is None else problem.travel_s[place][operation.position])

    def extend(ends, last, held, place, free, hands_on, changes):
        if len(ends) == len(seconds):
            found.add((free, hands_on, changes))
            return
        for index in range(len(seconds)):
            if index in ends or any(earlier not in ends for earlier, _ in after[index]):
                continue
            change = setup(last, held, place, index)
            if change is None:
                continue
            begin = max([free + change] + [ends[earlier] + lag for earlier, lag in after[index]])
            next_held, next_place = held, place
            if not pairwise:
                operation = problem.operations[index]
                next_held = operation.tools or held
                next_place = place if operation.position is None else operation.position
            end = begin + seconds[index]
            moved = (next_held != held) + (next_place != place)
            used = hands_on + change + seconds[index]
            extend({**ends, index: end}, index, next_held, next_place, end, used, changes + moved)

    if pairwise:
        extend({}, None, frozenset(), 0, 0, 0, 0)
    else:
        extend({}, None, problem.start_tools, problem.start_position, 0, 0, 0)
    return found
