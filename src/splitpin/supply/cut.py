"""The least-cost load when nothing limits it: a minimum cut.

Source to claim with the claim's gain, claim to each level it needs and level to the level below without limit, level to
sink with the cost of the step. What a cut of least capacity leaves on the source's side is a best load. Of all best
loads it gives the least one, so that equal costs never make a load flicker.

By hand: a claim worth 30 needs a board at 20: the flow is 20, the claim is on the source's side, the board is carried.
With a board at 40 the flow is 30 and nothing is carried.

Source: closure by minimum cut (project selection), as in textbooks of network flow; flow by levels after Dinic (1970).
"""

from collections import deque

from splitpin.supply.claims import Claims

_SOURCE, _SINK = 0, 1


class Network:
    """The network of a round; `least` finds the best load for given costs of the steps."""

    def __init__(self, claims: Claims) -> None:
        """Nodes and arcs: one node for each level and for each claim of several levels. Cost: linear in the claims."""
        self.arcs: list[list[int]] = [[], []]
        self.to: list[int] = []
        self.room: list[int] = []
        self.endless = 1 + sum(gain for _, gain in claims.claims)
        self.level_nodes: list[list[int]] = []
        self.step_arcs: list[list[int]] = []
        for column in claims.columns:
            nodes: list[int] = []
            arcs = []
            for _ in column.steps:
                node = self._node()
                if nodes:
                    self._arc(node, nodes[-1], self.endless)
                nodes.append(node)
                arcs.append(self._arc(node, _SINK, 0))
            self.level_nodes.append(nodes)
            self.step_arcs.append(arcs)
        for needs, gain in claims.claims:
            wanted = [self.level_nodes[column][level - 1] for column, level in needs]
            if len(wanted) == 1:
                self._arc(_SOURCE, wanted[0], gain)
                continue
            node = self._node()
            self._arc(_SOURCE, node, gain)
            for level in wanted:
                self._arc(node, level, self.endless)

    def _node(self) -> int:
        self.arcs.append([])
        return len(self.arcs) - 1

    def _arc(self, start: int, end: int, room: int) -> int:
        """An arc and its way back; the number of the arc."""
        self.arcs[start].append(len(self.to))
        self.to.append(end)
        self.room.append(room)
        self.arcs[end].append(len(self.to))
        self.to.append(start)
        self.room.append(0)
        return len(self.to) - 2

    def least(self, costs: list[list[int | None]]) -> tuple[int, tuple[int, ...]]:
        """The least of carried cost + gain missed, and the levels of each column that bring it; of equals the smallest.

        `costs[column][n]` is that of step n + 1; None forbids it.
        """
        room = self.room.copy()
        for arcs, steps in zip(self.step_arcs, costs, strict=True):
            for arc, cost in zip(arcs, steps, strict=True):
                room[arc] = self.endless if cost is None else cost
        flow = 0
        while (distance := self._distances(room))[_SINK] >= 0:
            flow += self._blocking(room, distance)
        return flow, tuple(sum(distance[node] >= 0 for node in nodes) for nodes in self.level_nodes)

    def _distances(self, room: list[int]) -> list[int]:
        """Arcs from the source to each node along arcs with room; -1 where there is no way. All nodes are visited."""
        distance = [-1] * len(self.arcs)
        distance[_SOURCE] = 0
        waiting = deque([_SOURCE])
        while waiting:
            node = waiting.popleft()
            for arc in self.arcs[node]:
                if room[arc] and distance[self.to[arc]] < 0:
                    distance[self.to[arc]] = distance[node] + 1
                    waiting.append(self.to[arc])
        return distance

    def _blocking(self, room: list[int], distance: list[int]) -> int:
        """Fill shortest ways until each has a full arc; what was sent."""
        arcs, to = self.arcs, self.to
        following = [0] * len(arcs)
        way: list[int] = []
        node, sent = _SOURCE, 0
        while True:
            if node == _SINK:
                most = min(room[arc] for arc in way)
                for arc in way:
                    room[arc] -= most
                    room[arc ^ 1] += most
                sent += most
                full = next(n for n, arc in enumerate(way) if not room[arc])
                node = to[way[full] ^ 1]
                del way[full:]
                continue
            mine, further = arcs[node], distance[node] + 1
            at = following[node]
            while at < len(mine) and not (room[mine[at]] and distance[to[mine[at]]] == further):
                at += 1
            following[node] = at
            if at < len(mine):
                way.append(mine[at])
                node = to[mine[at]]
            elif way:
                following[to[way[-1] ^ 1]] += 1
                node = to[way.pop() ^ 1]
            else:
                return sent
