"""Carriers in carriers: the least seconds by brute force over every state of the plant, against the plan.

The brute force knows the definitions and nothing of the planner: what is undone, what is out or aside, and what may
come next. Figures are the test's own.
"""

import heapq
import random
from collections.abc import Iterator

import pytest
from tests.planning.random_visits import library

from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.records.assembly import Assembly, Component, Joint, Way
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit

CP = "common practice"
FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "f", "title": "f", "jurisdiction": "gb"},
        "times": {"pickup_s": 0, "move_s": 0, "basis": CP},
    }
)
WORK = {"needs": "out", "min": {"low": 1, "mode": 1, "high": 1}, "steps": ["Look at it."], "basis": CP}
State = tuple[frozenset[str], frozenset[tuple[str, str]]]
"""The joints undone, and the components away with how they left."""


def visit(seed: int) -> Visit:
    """Three to five components, most on a chain of carriers; look at the last one, out."""
    chance = random.Random(seed)
    names = [f"c{number}" for number in range(chance.randint(3, 5))]
    components, joints = [], []
    for number, name in enumerate(names):
        others = [other for other in names if other != name]

        def sets(others: list[str] = others) -> list[list[str]]:
            return [chance.sample(others, chance.randint(0, 1)) for _ in range(chance.randint(1, 2))]

        row: dict[str, object] = {"id": name, "title": name, "role": "thing", "position": "front"}
        if number and chance.random() < 0.8:
            row["carried_by"] = names[number - 1] if chance.random() < 0.7 else chance.choice(names[:number])
        ways: list[dict[str, object]] = [{"ends": "out", "behind": sets()}]
        if chance.random() < 0.4:
            ways.append({"ends": chance.choice(["out", "aside"]), "behind": sets()})
        for way in ways:
            if chance.random() < 0.5:
                way |= {"off_s": chance.randint(1, 60), "on_s": chance.randint(1, 60), "basis": CP}
            if chance.random() < 0.25:
                way["bench_behind"] = sets()
        components.append(row | {"way": ways})
        held = [chance.choice([*names[:number], "frame"])]
        if "carried_by" in row and chance.random() < 0.7:
            held.append(str(row["carried_by"]))
        for index, other in enumerate(held):
            joint: dict[str, object] = {
                "id": f"{name}-j{index}",
                "between": [name, other],
                "hardware": f"fixing-{chance.choice(['driver', 'spanner', 'pliers'])}",
                "count": chance.randint(1, 3),
                "position": "front",
                "behind": sets() if chance.random() < 0.4 else [],
            }
            if chance.random() < 0.2:
                joint["bench_behind"] = sets()
            joints.append(joint)
    components[-1]["work"] = {"inspect": WORK}
    rows = library(chance)
    rows.assemblies["deep"] = Assembly.model_validate(
        {
            "format": 1,
            "assembly": {"id": "deep", "title": "deep", "positions": ["front"]},
            "component": components,
            "joint": joints,
        }
    )
    head = {"reference": "R", "title": "deep", "assembly": "deep"}
    job = JobFile.model_validate(
        {"format": 1, "job": head, "task": [{"do": "inspect", "component": names[-1]}]},
    )
    return Visit(job, FIRM, rows)


class Plant:
    """What may be done next in each state of a small plant."""

    def __init__(self, visit: Visit) -> None:
        self.rows = {row.id: row for row in visit.assembly.component}
        self.joints = {row.id: row for row in visit.assembly.joint}
        self.library = visit.library

    def chain(self, name: str) -> list[str]:
        """The component, and what carries it in turn."""
        found = [name] if name in self.rows else []
        while found and (carrier := self.rows[found[-1]].carried_by) is not None:
            found.append(carrier)
        return found

    def at_bench(self, chains: list[list[str]], away: dict[str, str]) -> str | None:
        return next((c for c in chains[0] if away.get(c) == "out" and all(c in chain for chain in chains)), None)

    def free(self, item: Way | Joint, around: list[str], carrier: str | None, away: dict[str, str]) -> bool:
        """Whether one of the sets that the item is behind is out of the way."""
        sets = item.behind if carrier is None or item.bench_behind is None else item.bench_behind
        return any(not any(self.stands(name, around, carrier, away) for name in names) for names in sets)

    def stands(self, name: str, around: list[str], carrier: str | None, away: dict[str, str]) -> bool:
        """Whether it stands in the way of what these carriers are around: what moves with one of them does."""
        chain = self.chain(name)
        if carrier is None:
            return name not in away and not any(away.get(one) == "out" for one in chain[1:])
        below = (
            [name, *(one for one in chain[1 : chain.index(carrier)] if one not in around)] if carrier in chain else []
        )
        return carrier in chain[1:] and not any(one in away for one in below)

    def crossing(self, component: Component) -> list[Joint]:
        inside = {name for name in self.rows if component.id in self.chain(name)}
        return [joint for joint in self.joints.values() if len(inside & {*joint.between}) == 1]

    def loose(self, component: Component, undone: frozenset[str], away: dict[str, str]) -> bool:
        """Whether something would travel loose: a joint undone, neither of whose ends has left in place, by itself or
        carried out by what does not carry the other end too.
        """
        for name in undone:
            chains = [self.chain(end) for end in self.joints[name].between]
            if all(component.id in chain for chain in chains):
                own = [[one for one in chain if not all(one in other for other in chains)] for chain in chains]
                if not any(chain and (chain[0] in away or self.at_bench([chain], away)) for chain in own):
                    return True
        return False

    def after(self, state: State) -> Iterator[tuple[int, State]]:
        """Every next state, with the seconds off and on."""
        undone, gone = state
        away = dict(gone)
        for joint in self.joints.values():
            one, other = (self.chain(end) for end in joint.between)
            around = [name for name in one if name in other]
            if joint.id not in undone and self.free(joint, around, self.at_bench([one, other], away), away):
                row = self.library.hardware[joint.hardware]
                yield joint.count * (row.off_s + row.on_s), (undone | {joint.id}, gone)
        for component in self.rows.values():
            if component.id in away:
                continue
            around = self.chain(component.id)[1:]
            carrier = self.at_bench([around], away)
            held = [
                joint
                for joint in self.crossing(component)
                if joint.id not in undone
                and (carrier is None or all(carrier in self.chain(end) for end in joint.between))
            ]
            for way in component.ways:
                loose = way.ends == "out" and self.loose(component, undone, away)
                if not held and not loose and self.free(way, around, carrier, away):
                    off, on = (5 if way.off_s is None else way.off_s), (8 if way.on_s is None else way.on_s)
                    yield off + on, (undone, gone | {(component.id, way.ends)})

    def least_s(self, wanted: str) -> int | None:
        """The least seconds until the wanted component is out (Dijkstra 1959); None where it never is."""
        start: State = (frozenset(), frozenset())
        best = {start: 0}
        queue: list[tuple[int, int, State]] = [(0, 0, start)]
        count = 0
        while queue:
            cost, _, state = heapq.heappop(queue)
            if (wanted, "out") in state[1]:
                return cost
            if cost > best[state]:
                continue
            for seconds, then in self.after(state):
                if cost + seconds < best.get(then, cost + seconds + 1):
                    best[then] = cost + seconds
                    count += 1
                    heapq.heappush(queue, (cost + seconds, count, then))
        return None


def compared(seed: int) -> tuple[int | None, int | None]:
    """The seconds of the plan without its work and hand-over (a minute each), and the least; None where there is no
    plan, and where nothing opens.
    """
    asked = visit(seed)
    plan = plan_visit(asked).plan
    assert check_plan(plan, asked) == ()
    wanted = asked.job.task[0].component
    assert wanted is not None
    planned = None if plan.status == "impossible" else plan.times.hands_on_s - 120
    return planned, Plant(asked).least_s(wanted)


@pytest.mark.parametrize("first", range(0, 150, 50))
def test_the_least_at_the_bench_is_found(first: int) -> None:
    rows = {seed: compared(seed) for seed in range(first, first + 50)}
    assert {seed: row for seed, row in rows.items() if row[0] != row[1]} == {}
    assert sum(least is not None for _, least in rows.values()) > 10


@pytest.mark.benchmark
@pytest.mark.parametrize("first", range(1_000, 2_000, 100))
def test_the_least_at_the_bench_is_found_a_thousand_times(first: int) -> None:
    rows = {seed: compared(seed) for seed in range(first, first + 100)}
    assert {seed: row for seed, row in rows.items() if row[0] != row[1]} == {}
