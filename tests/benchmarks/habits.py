"""What each habit of the trade costs over the examples: `python -m tests.benchmarks.habits` prints the table of
docs/method.md. A usual habit is left out, another one is put in; a search may take ten seconds.
"""

import time
from collections.abc import Callable
from dataclasses import replace

from tests.examples import FIRM, NAMES

from splitpin.planning import plan_visit
from splitpin.planning.programme.habits import ALL, USUAL, Habit
from splitpin.reading.visit import read_visit
from splitpin.records.firm import FirmHabits
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

LIMIT_S = 10


def without(visit: Visit, habit: Habit) -> Visit:
    """The visit of a firm that keeps a habit which is not usual, or does not keep one that is."""
    habits = FirmHabits(off=(habit.id,)) if habit in USUAL else FirmHabits(on=(habit.id,))
    return replace(visit, firm=visit.firm.model_copy(update={"habits": habits}))


def within(seconds: float) -> Callable[[], bool]:
    end = time.monotonic() + seconds
    return lambda: time.monotonic() > end


def main() -> None:
    visits = {}
    for name in NAMES:
        visit, _ = read_visit(FIRM / "jobs" / f"{name}.toml")
        assert visit is not None
        visits[name] = visit
    usual = {name: plan_visit(visit).plan for name, visit in visits.items()}
    print("| habit | examples | elapsed, all | most in one | hands-on, all | slowest plan |")
    print("|---|---|---|---|---|---|")
    for habit in ALL:
        changed, slowest = {}, 0.0
        for name, visit in visits.items():
            start = time.process_time()
            plan = plan_visit(without(visit, habit), stop=within(LIMIT_S)).plan
            slowest = max(slowest, time.process_time() - start)
            changed[name] = plan
        print(row(habit, usual, changed, slowest), flush=True)


def row(habit: Habit, usual: dict[str, Plan], changed: dict[str, Plan], slowest: float) -> str:
    """What keeping the habit adds, in seconds."""
    sign = 1 if habit in USUAL else -1
    costs = {name: sign * (usual[name].times.elapsed_s - plan.times.elapsed_s) for name, plan in changed.items()}
    hands_on = sum(sign * (usual[name].times.hands_on_s - plan.times.hands_on_s) for name, plan in changed.items())
    most = max(costs, key=lambda name: abs(costs[name]))
    share = 100 * costs[most] / max(usual[most].times.elapsed_s, changed[most].times.elapsed_s)
    one = f"{costs[most]} s, {share:.1f} % ({most})" if costs[most] else "0 s"
    felt = sum(1 for cost in costs.values() if cost)
    return f"| `{habit.id}` | {felt} | {sum(costs.values())} s | {one} | {hands_on} s | {slowest:.1f} s |"


if __name__ == "__main__":
    main()
