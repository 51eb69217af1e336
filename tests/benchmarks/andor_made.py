"""AND/OR instances made here in the shape of the published ones, and how the time to proof grows with their size.

    python -m tests.benchmarks.andor_made [--tasks N ...] [--seeds K] [--circles]

Shape: a third of the tasks follow one of 2 to 4 others (the OR set), some of these also follow one task for certain;
the others follow one task or two. Whatever comes before a task lies near it, so that branches part and meet again.
Names are dealt at random. With circles, an OR set may also name tasks that come later, of which a way may lead back.

Lines: tasks, targets and the median, mean and largest seconds of processor time of a single search, over every task
of every instance as the target.
"""

import argparse
import json
import random
import statistics
import time
from collections.abc import Iterator

from tests.benchmarks.andor import Instance

from splitpin.access.problem import AccessProblem, Node
from splitpin.access.result import AccessResult
from splitpin.access.search import least_opening

REACH = 8
"""How far back in the order of making the tasks before a task are sought; the published ones reach about as far."""


def made(tasks: int, seed: int, *, circles: bool = False) -> Instance:
    """The instance of this many tasks (numbered from 1) that the seed stands for; every task can be reached."""
    rng = random.Random(f"{tasks} {seed} {circles}")
    name = list(range(tasks))
    rng.shuffle(name)
    nodes = [Node(0)] * tasks
    for place in range(tasks):
        near = range(max(0, place - REACH), place)
        needs: list[tuple[frozenset[int], ...]] = []
        if len(near) > 1 and rng.random() < 1 / 3:
            some = rng.sample(near, min(len(near), rng.choice([2, 2, 3, 4])))
            if circles and rng.random() < 0.5:
                later = [at for at in range(place + 1, min(tasks, place + REACH)) if at not in some]
                some = [*some[:-1], *rng.sample(later, min(len(later), 2))] if later else some
            needs.append(tuple(frozenset({name[at]}) for at in some))
            certain = rng.choice([0, 0, 0, 1])
        else:
            certain = rng.choice([1, 1, 1, 2])
        needs += [(frozenset({name[at]}),) for at in rng.sample(near, min(len(near), certain))]
        nodes[name[place]] = Node(rng.randint(1, 20), tuple(needs))
    labels = tuple(range(1, tasks + 1))
    return Instance(f"made-{tasks}-{seed}", tuple(nodes), labels, labels)


def timed(tasks: int, seeds: int, *, circles: bool = False) -> Iterator[tuple[AccessProblem, AccessResult, float]]:
    """Every task of every instance as the target: the problem, the answer and the seconds of processor time."""
    for seed in range(seeds):
        instance = made(tasks, seed, circles=circles)
        for target in instance.targets:
            problem = instance.problem(target)
            start = time.process_time()
            answer = least_opening(problem)
            yield problem, answer, time.process_time() - start


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--tasks", type=int, nargs="+", default=[30, 60, 73, 133, 200])
    parser.add_argument("--seeds", type=int, default=10)
    parser.add_argument("--circles", action="store_true")
    arguments = parser.parse_args()
    for tasks in arguments.tasks:
        seconds = [one for _, _, one in timed(tasks, arguments.seeds, circles=arguments.circles)]
        median, mean, most = statistics.median(seconds), statistics.mean(seconds), max(seconds)
        line = {"tasks": tasks, "targets": len(seconds), "median": median, "mean": mean, "most": most}
        print(json.dumps({key: round(value, 4) for key, value in line.items()}), flush=True)


if __name__ == "__main__":
    main()
