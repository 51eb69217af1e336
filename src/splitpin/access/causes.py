"""Why nothing can be opened: a smallest set of needs that stand in each other's way.

When no order arrives at the targets, there is a set of nodes such that each has one need, every alternative of
which names a node of the set again. Such a set proves that nothing in it can ever be opened: the first of them to
be opened would need another before it. The smallest one that starts at a target need is the explanation.

By hand: the target is 0; 0 needs {1} or {2}; 1 needs nothing that exists (a need without alternatives); 2 needs
{0}. Explanation: target (1 way, blocked by 0), 0 (blocked by 1 and 2), 1 (no alternative), 2 (blocked by 0,
circular).

Our own rule: best-first on the number of nodes; past `LIMIT` states the smallest so far is not sought any further
and the search goes on depth-first, so the explanation is then right but perhaps not the smallest.
"""

import heapq

from splitpin.access.problem import AccessProblem, Need
from splitpin.access.reduction import openable
from splitpin.access.result import TARGETS, Cause

LIMIT = 5_000
"""States looked at before the smallest explanation is given up for a quick one (about 0.1 s); our own choice."""

_Reason = tuple[int, int, tuple[int, ...]]


def why_not(problem: AccessProblem) -> tuple[Cause, ...]:
    """The causes that keep the targets shut, the target need first, then each as it is first named.

    Empty when the targets can be opened. Ties: the lowest need and the lowest nodes.
    """
    possible, reachable = openable(problem)
    if possible:
        return ()
    return _with_circles(_smallest(problem, reachable))


def _blocked(needs: tuple[Need, ...], reachable: int) -> list[tuple[int, list[list[int]]]]:
    """The needs that cannot be met, each with the unopenable nodes of every alternative."""
    found = []
    for number, need in enumerate(needs):
        ways = [sorted(node for node in nodes if not reachable >> node & 1) for nodes in need]
        if all(ways):
            found.append((number, ways))
    return found


def _smallest(problem: AccessProblem, reachable: int) -> list[_Reason]:
    """One blocked need a node, closed under the nodes it names; fewest nodes first."""
    count = 0
    # (nodes named, tie, waiting nodes, named nodes as bits, reasons so far)
    queue: list[tuple[int, int, tuple[int, ...], int, tuple[_Reason, ...]]] = [(0, 0, (TARGETS,), 0, ())]
    while True:
        size, _, waiting, named, reasons = heapq.heappop(queue)
        if not waiting:
            return list(reasons)
        node, rest = waiting[0], waiting[1:]
        for need, ways in _blocked(problem.targets if node == TARGETS else problem.nodes[node].needs, reachable):
            for blockers, fresh in _covers(ways, named):
                count += 1
                total = named
                for blocker in fresh:
                    total |= 1 << blocker
                rank = size + len(fresh) if count < LIMIT else -count
                heapq.heappush(queue, (rank, count, (*rest, *fresh), total, (*reasons, (node, need, blockers))))
                if count > LIMIT:
                    break


def _covers(ways: list[list[int]], named: int) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Every useful pick of one node for each alternative, with the nodes newly named by it."""
    picks: dict[tuple[int, ...], tuple[int, ...]] = {(): ()}  # blockers so far -> newly named
    for ways_nodes in ways:
        grown: dict[tuple[int, ...], tuple[int, ...]] = {}
        for blockers, fresh in picks.items():
            known = [node for node in ways_nodes if named >> node & 1 or node in fresh]
            for node in known[:1] or ways_nodes:
                grown[(*blockers, node)] = fresh if known else (*fresh, node)
        picks = grown
        if len(picks) > 64:
            picks = dict(sorted(picks.items(), key=lambda pick: (len(pick[1]), pick[0]))[:64])
    unique: dict[tuple[int, ...], tuple[int, ...]] = {}
    for blockers, fresh in picks.items():
        unique.setdefault(tuple(sorted(fresh)), blockers)
    return [(blockers, fresh) for fresh, blockers in unique.items()]


def _with_circles(reasons: list[_Reason]) -> tuple[Cause, ...]:
    named = {node: set(blockers) for node, _, blockers in reasons}
    causes = []
    for node, need, blockers in reasons:
        seen: set[int] = set()
        waiting = list(blockers)
        while waiting:
            at = waiting.pop()
            if at not in seen:
                seen.add(at)
                waiting.extend(named[at])
        causes.append(Cause(node, need, blockers, node in seen))
    return tuple(causes)
