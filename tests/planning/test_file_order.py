"""No time, no set of openings and no list of a plan depends on the order of tables in a file."""

import random
from dataclasses import replace
from typing import Any

import pytest
from tests.bundled import LIBRARY
from tests.planning.test_every_task import tasks_of, visit_for

from splitpin.planning import plan_visit
from splitpin.records.assembly import Assembly
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

TABLES = ("joint", "component", "circuit")


def shuffled(assembly: Assembly, chance: random.Random) -> Assembly:
    """The same assembly, its tables in another order."""
    rows = {table: [*getattr(assembly, table)] for table in TABLES}
    for table in rows.values():
        chance.shuffle(table)
    return assembly.model_copy(update={table: tuple(new) for table, new in rows.items()})


def what_stays(plan: Plan) -> tuple[Any, ...]:
    opened = plan.opened
    return (
        plan.status,
        plan.times,
        {row.id for row in opened.components},
        {*opened.joints},
        {*opened.circuits},
        {condition.id for condition in plan.conditions},
        {(tool.id, tool.owned) for tool in plan.tools},
        {(part.part, part.quantity) for part in plan.parts},
        {proof.id for proof in plan.proofs},
    )


def visits(name: str) -> list[Visit]:
    """A few single tasks of an assembly, spread over it, and all of these in one visit."""
    tasks = [*tasks_of(LIBRARY.assemblies[name])]
    few = tasks[:: max(1, len(tasks) // 5)][:5]
    visit = visit_for(name, few[0])
    together = visit.job.model_dump() | {"task": few[:3]}
    return [*(visit_for(name, task) for task in few), replace(visit, job=JobFile.model_validate(together))]


@pytest.mark.parametrize("name", sorted(LIBRARY.assemblies))
def test_tables_may_stand_in_any_order(name: str) -> None:
    chance = random.Random(name)
    for visit in visits(name):
        plan = plan_visit(visit).plan
        for _ in range(2):
            assembly = shuffled(LIBRARY.assemblies[name], chance)
            library = replace(LIBRARY, assemblies={**LIBRARY.assemblies, name: assembly})
            assert what_stays(plan_visit(replace(visit, library=library)).plan) == what_stays(plan), plan.tasks


def test_the_tables_do_stand_in_another_order() -> None:
    assembly = LIBRARY.assemblies["circulator-set"]
    assert shuffled(assembly, random.Random(1)).joint != assembly.joint
