"""Everything that could have to come open in a visit, as one AND/OR graph with a cost at each node.

A node is something done once (lift this component this way, undo this joint, make this condition, do this task) or a
state that several doings give (this joint undone, this component clear, this circuit isolated). States cost nothing.
By hand: a pump behind a casing held by two screws: doing `replace pump` needs the state `pump out`, which needs
`lift pump`, which needs `pump screws undone` and `casing clear`; `casing clear` needs `lift casing` and that `casing
screws undone`. Five doings.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from splitpin.access.problem import AccessProblem
from splitpin.access.problem import Node as Numbered
from splitpin.access.result import Opening
from splitpin.planning.opening.states import Node
from splitpin.planning.plant.doings import DOINGS, Doing, Doings, turn

Alternatives = tuple[tuple[Node, ...], ...]


class Charge(NamedTuple):
    """What is paid once however many doings bring it: a proof to run, a tool to fetch, a position to go to."""

    sort: Literal["proof", "tool", "position"]
    name: str


@dataclass(slots=True)
class Graph:
    """The nodes in the order in which they were met; `problem` numbers them that way."""

    needs: dict[Node, list[Alternatives]] = field(default_factory=dict)
    charges: dict[Node, frozenset[Charge]] = field(default_factory=dict)
    charge_costs: dict[Charge, int] = field(default_factory=dict)
    targets: list[Node] = field(default_factory=list)

    @property
    def nodes(self) -> tuple[Node, ...]:
        """Every node by its number."""
        return tuple(self.needs)

    def problem(self) -> AccessProblem:
        """The graph in plain numbers."""
        number = {node: index for index, node in enumerate(self.needs)}
        charge = {row: index for index, row in enumerate(self.charge_costs)}
        rows = tuple(
            Numbered(
                cost=sum(node.seconds),
                needs=tuple(tuple(frozenset(number[k] for k in nodes) for nodes in need) for need in needs),
                charges=frozenset(charge[row] for row in self.charges[node]),
            )
            for node, needs in self.needs.items()
        )
        targets = tuple((frozenset({number[node]}),) for node in self.targets)
        return AccessProblem(rows, tuple(self.charge_costs.values()), targets)

    def doings(self, opening: Opening) -> Doings:
        """Every doing of an opening with the doings that come straight before it, states passed through.

        In the order of the graph's nodes.
        """
        nodes = self.nodes
        earlier: dict[int, list[int]] = {}
        for a, b in opening.before:
            earlier.setdefault(b, []).append(a)

        def doings_before(index: int) -> set[Doing]:
            found: set[Doing] = set()
            for other in earlier.get(index, ()):
                node = nodes[other]
                if isinstance(node, DOINGS):
                    found.add(node)
                else:
                    found |= doings_before(other)
            return found

        return {
            node: tuple(sorted(doings_before(index), key=turn))
            for index in sorted(opening.nodes)
            if isinstance(node := nodes[index], DOINGS)
        }
