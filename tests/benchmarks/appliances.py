"""Appliance-like problems from a seed: components in layers behind each other, tools and positions with locality.

A component has a main position and one to four joints. Three joints in four share its main position, the rest are at
a neighbouring one; most joints of a component are of one hardware, hence of one tool set. Its joints are reached once
the components in front of it are out; it comes out, with nothing more in the hands than they hold, once its joints
are undone. One tool set in six is a pair of spanners. Figures are plausible round numbers of our own, not measured.
"""

import random

from splitpin.ordering.problem import Operation, OrderingProblem

PICKUP_S = (6, 6, 6, 8, 8, 8, 10, 10)
"""Screwdrivers and keys, spanners, a pair of larger tools."""

TOOL_SETS = ((0,), (1,), (2,), (3,), (4,), (5,), (3, 6), (4, 7))


def appliance(components: int, seed: int, *, waits: int = 0) -> OrderingProblem:
    """A strip-down problem with the given number of components; about 3.3 operations each.

    waits: that many waits, each from an early operation without predecessors (switch off, close a cock) to the joints
    of some later components (cold enough, drained).
    """
    chance = random.Random(f"appliance {components} {seed} {waits}")
    positions = max(3, min(6, components // 4 + 2))
    layers = max(2, min(6, round(components**0.5)))
    operations: list[Operation] = []
    out: list[int] = []
    layer_of = sorted(chance.randrange(layers) for _ in range(components))
    places = [chance.randrange(positions) for _ in range(components)]
    starters = []
    for _ in range(waits):
        starters.append(len(operations))
        operations.append(Operation(chance.choice((20, 30, 45)), frozenset(), chance.randrange(positions)))
    for component in range(components):
        in_front = [other for other in range(component) if layer_of[other] == layer_of[component] - 1]
        near = [other for other in in_front if places[other] == places[component]] or in_front
        behind = chance.sample(near, min(len(near), chance.choice((1, 1, 2))))
        gates = [(out[other], 0) for other in behind]
        if starters and layer_of[component] >= layers // 2 and chance.random() < 0.5:
            gates.append((chance.choice(starters), chance.choice((120, 300, 600, 1200))))
        usual = chance.choice(TOOL_SETS)
        joints = []
        for _ in range(chance.randint(1, 4)):
            tools = usual if chance.random() < 0.7 else chance.choice(TOOL_SETS)
            place = places[component]
            if chance.random() < 0.25:
                place = (place + chance.choice((1, positions - 1))) % positions
            joints.append(len(operations))
            operations.append(Operation(chance.choice((8, 12, 20, 35)), frozenset(tools), place, tuple(gates)))
        out.append(len(operations))
        operations.append(
            Operation(chance.choice((5, 10, 20)), frozenset(), places[component], tuple((joint, 0) for joint in joints))
        )
    ring = [[min((a - b) % positions, (b - a) % positions) for b in range(positions)] for a in range(positions)]
    return OrderingProblem(
        operations=tuple(operations),
        pickup_s=PICKUP_S,
        travel_s=tuple(tuple(8 * steps for steps in row) for row in ring),
    )
