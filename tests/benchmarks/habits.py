"""What each habit of the trade costs over the examples: `python -m tests.benchmarks.habits` prints the table of
docs/method.md. A usual habit is left out, another one is put in; a search may take ten seconds.
"""

import time
from collections.abc import Callable

from tests.examples import FIRM, NAMES

from splitpin.planning.asked.expand import expand
from splitpin.planning.best.choose import Choice, choose
from splitpin.planning.opening.needs import open_graph
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.habits import ALL, USUAL, Habit, Habits
from splitpin.reading.visit import read_visit

LIMIT_S = 10


def within(seconds: float) -> Callable[[], bool]:
    end = time.monotonic() + seconds
    return lambda: time.monotonic() > end


def chosen(name: str, habits: Habits) -> Choice:
    visit, _ = read_visit(FIRM / "jobs" / f"{name}.toml")
    assert visit is not None
    plant, wanted = Plant(visit), expand(visit).wanted
    choice = choose(open_graph(plant, wanted), plant, wanted, within(LIMIT_S), habits)
    assert isinstance(choice, Choice)
    return choice


def hands_on_s(choice: Choice) -> int:
    return choice.strip.hands_on_s + choice.refit.hands_on_s


def main() -> None:
    usual = {name: chosen(name, USUAL) for name in NAMES}
    print("| habit | examples | elapsed, all | most in one | hands-on, all | slowest search | proved |")
    print("|---|---|---|---|---|---|---|")
    for habit in ALL:
        changed, slowest = {}, 0.0
        for name in NAMES:
            start = time.process_time()
            changed[name] = chosen(name, USUAL ^ {habit})
            slowest = max(slowest, time.process_time() - start)
        print(row(habit, usual, changed, slowest), flush=True)


def row(habit: Habit, usual: dict[str, Choice], changed: dict[str, Choice], slowest: float) -> str:
    """What keeping the habit adds, in seconds."""
    sign = 1 if habit in USUAL else -1
    costs = {name: sign * (usual[name].elapsed_s - choice.elapsed_s) for name, choice in changed.items()}
    hands_on = sum(sign * (hands_on_s(usual[name]) - hands_on_s(choice)) for name, choice in changed.items())
    most = max(costs, key=lambda name: abs(costs[name]))
    share = 100 * costs[most] / max(usual[most].elapsed_s, changed[most].elapsed_s)
    one = f"{costs[most]} s, {share:.1f} % ({most})" if costs[most] else "0 s"
    felt = sum(1 for cost in costs.values() if cost)
    proved = sum(1 for choice in changed.values() if not choice.gap_s)
    seconds = (f"{sum(costs.values())} s", one, f"{hands_on} s", f"{slowest:.1f} s")
    figures = (felt, *seconds, f"{proved} of {len(changed)}")
    return f"| `{habit.id}` | {' | '.join(map(str, figures))} |"


if __name__ == "__main__":
    main()
