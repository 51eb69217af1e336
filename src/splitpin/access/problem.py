"""What must be open before what, as plain numbers.

A node is anything that can be opened, made or visited. Each of its needs is met by any one of its alternatives,
and an alternative is a set of nodes that all come before the node. Opening a set of targets costs every node of
the set once and every fixed charge that any of them brings once, however many of them bring it.

By hand: node 2 costs 1 and needs node 0 (cost 4) or node 1 (cost 3); node 3 costs 1 and needs node 0. For the
targets 2 and 3 the least set is {0, 2, 3} at 6: node 0 is there for both. Adding up the cheapest way to reach
each of them would have taken node 1 for the first and node 0 for the second, 9.
"""

from dataclasses import dataclass

Alternative = frozenset[int]
Need = tuple[Alternative, ...]


@dataclass(frozen=True, slots=True)
class Node:
    """One thing that can be in the set.

    cost: at least 0, paid once when the node is in the set.
    needs: all of them must be met; a need is met by any one of its alternatives (none: it cannot be met, so the
        node cannot be opened; the empty set: met by nothing); every node of the alternative comes before this one.
    charges: numbers of the fixed charges the node brings.
    """

    cost: int
    needs: tuple[Need, ...] = ()
    charges: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class AccessProblem:
    """The nodes (numbered from 0), the price of each fixed charge (numbered from 0), and what is asked for.

    targets: same form as the needs of a node. Circular needs are allowed; a set counts only when the chosen
        alternatives leave an order.
    Raises ValueError when a cost is negative or a number names no node or charge.
    """

    nodes: tuple[Node, ...]
    charge_costs: tuple[int, ...] = ()
    targets: tuple[Need, ...] = ()

    def __post_init__(self) -> None:
        size, charges = len(self.nodes), len(self.charge_costs)
        for number, price in enumerate(self.charge_costs):
            if price < 0:
                raise ValueError(f"charge {number} has the negative cost {price}")
        for number, node in enumerate(self.nodes):
            if node.cost < 0:
                raise ValueError(f"node {number} has the negative cost {node.cost}")
            if node.charges and not (min(node.charges) >= 0 and max(node.charges) < charges):
                raise ValueError(f"node {number} names a charge outside 0..{charges - 1}: {sorted(node.charges)}")
            _guard(node.needs, size, f"node {number}")
        _guard(self.targets, size, "a target")


def _guard(needs: tuple[Need, ...], size: int, owner: str) -> None:
    for need in needs:
        for alternative in need:
            if alternative and not (min(alternative) >= 0 and max(alternative) < size):
                raise ValueError(f"{owner} names a node outside 0..{size - 1}: {sorted(alternative)}")
