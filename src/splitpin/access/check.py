"""An independent look at an answer: everything is worked out again from the definition.

Shares no code with the search. By hand: an opening {1} whose node 1 needs {0} has the fault "needed-node-missing".
"""

from dataclasses import dataclass
from typing import Literal

from splitpin.access.problem import AccessProblem
from splitpin.access.result import Cause, Opening

Code = Literal[
    "no-such-node",
    "no-such-choice",
    "choice-missing",
    "choice-twice",
    "needed-node-missing",
    "not-asked-for",
    "wrong-before",
    "circular",
    "wrong-charges",
    "wrong-cost",
    "not-sorted",
]


@dataclass(frozen=True, slots=True)
class OpeningFault:
    """One way in which an opening does not answer its problem; numbers: the nodes, needs or sums concerned."""

    code: Code
    numbers: tuple[int, ...] = ()


def check_opening(problem: AccessProblem, opening: Opening) -> list[OpeningFault]:
    """Every fault of the opening, none when it stands: a set in which each need is met and some order exists.

    That it is the least is not checked here. Work grows with the size of the opening.
    """
    outside = sorted(node for node in opening.nodes if not 0 <= node < len(problem.nodes))
    if outside:
        return [OpeningFault("no-such-node", tuple(outside))]
    faults: list[OpeningFault] = []
    needs_of = {-1: problem.targets} | {node: problem.nodes[node].needs for node in sorted(opening.nodes)}
    wanted = {(owner, number) for owner, needs in needs_of.items() for number in range(len(needs))}
    pairs: set[tuple[int, int]] = set()
    asked: dict[int, set[int]] = {}
    seen: set[tuple[int, int]] = set()
    for owner, number, alternative in opening.choices:
        if (owner, number) not in wanted or not 0 <= alternative < len(needs_of[owner][number]):
            faults.append(OpeningFault("no-such-choice", (owner, number, alternative)))
            continue
        if (owner, number) in seen:
            faults.append(OpeningFault("choice-twice", (owner, number)))
        seen.add((owner, number))
        nodes = needs_of[owner][number][alternative]
        asked.setdefault(owner, set()).update(nodes)
        if not nodes <= opening.nodes:
            faults.append(OpeningFault("needed-node-missing", (owner, number, *sorted(nodes - opening.nodes))))
        if owner != -1:
            pairs |= {(node, owner) for node in nodes}
    faults += [OpeningFault("choice-missing", key) for key in sorted(wanted - seen)]
    reached: set[int] = set()
    frontier = set(asked.get(-1, ()))
    while frontier:
        reached |= frontier
        frontier = {later for node in frontier for later in asked.get(node, ())} - reached
    stray = sorted(opening.nodes - reached)
    if stray:
        faults.append(OpeningFault("not-asked-for", tuple(stray)))
    if set(opening.before) != pairs:
        faults.append(
            OpeningFault("wrong-before", tuple(x for pair in sorted(pairs ^ set(opening.before)) for x in pair))
        )
    if list(opening.before) != sorted(opening.before) or list(opening.choices) != sorted(opening.choices):
        faults.append(OpeningFault("not-sorted"))
    left = set(opening.nodes)
    while True:
        ready = {node for node in left if not any(later == node and earlier in left for earlier, later in pairs)}
        if not ready:
            break
        left -= ready
    if left:
        faults.append(OpeningFault("circular", tuple(sorted(left))))
    charges = {charge for node in opening.nodes for charge in problem.nodes[node].charges}
    if charges != opening.charges:
        faults.append(OpeningFault("wrong-charges", tuple(sorted(charges ^ opening.charges))))
    cost = sum(problem.nodes[node].cost for node in opening.nodes)
    cost += sum(problem.charge_costs[charge] for charge in charges)
    if cost != opening.cost:
        faults.append(OpeningFault("wrong-cost", (opening.cost, cost)))
    return faults


def causes_hold(problem: AccessProblem, causes: tuple[Cause, ...]) -> bool:
    """Whether the causes prove that the targets cannot be met.

    They do when the first is a target need, every cause names one node of each alternative of its need, and every
    node named has a cause of its own: the first of them to be opened would need another before it.
    """
    if not causes or causes[0].node != -1:
        return False
    explained = {cause.node for cause in causes}
    for cause in causes:
        needs = problem.targets if cause.node == -1 else problem.nodes[cause.node].needs
        if not 0 <= cause.need < len(needs) or len(cause.blockers) != len(needs[cause.need]):
            return False
        for blocker, alternative in zip(cause.blockers, needs[cause.need], strict=True):
            if blocker not in alternative or blocker not in explained:
                return False
    return True
