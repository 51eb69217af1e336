"""How deep a part lies, in steps as the French repairability index counts them.

A step ends when a part or sub-assembly is off and when the tool changes; taking up a tool, laying it down and taking
out a fixing end none, fixings are no parts, and unplugging mains equipment is a step. Source: the definition of the
French ministry for the environment for the repairability index (code de l'environnement, R. 541-214), as quoted. That
isolating a mains circuit is such an unplugging, and that what is moved aside is off, is our own reading. By hand: two
screws with a driver and the cover off are one step; a union with a spanner, four screws with a key and the pump off are
two more.
"""

from collections.abc import Iterable

from splitpin.records.assembly import Assembly
from splitpin.records.plan import Plan, Step

MAINS = "mains"  # the medium whose isolation is an unplugging


def steps_to_reach(plan: Plan, assembly: Assembly) -> int:
    """The steps of a plan's strip, unplugging first."""
    makes = {way.makes for circuit in assembly.circuit if circuit.medium == MAINS for way in circuit.isolate}
    unplugged = any(row.id in makes and not row.already for row in plan.conditions)
    return int(unplugged) + counted_steps(step for step in plan.steps if step.phase == "strip")


def counted_steps(steps: Iterable[Step]) -> int:
    """The steps that these lines of a sheet come to."""
    count = 0
    begun = False  # something was done since the last step ended
    hands: tuple[str, ...] = ()
    for step in steps:
        if step.tools:
            if begun and hands and step.tools != hands:
                count += 1
                begun = False
            hands = step.tools
        begun = True
        if step.action == "take":
            count += 1
            begun = False
    return count + begun


def moved_first(plan: Plan, component: str | None) -> int:
    """How many components come out or aside before this one: those that the plan opens for it."""
    return sum(row.id != component for row in plan.opened.components)
