"""The circles that are told are the shortest there are; checked against networkx's list of all simple cycles."""

import networkx
from hypothesis import given
from hypothesis import strategies as st

from splitpin.notices import Place
from splitpin.reading.cycles import Rule, circles

EDGES = st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6), st.booleans()), max_size=14, unique_by=lambda e: e[:2])


def _rule(one: object, other: object, line: int = 1) -> Rule:
    return Rule(f"{one} waits for {other}", Place("f.toml", line, 1))


def test_the_shorter_of_two_circles_is_told() -> None:
    pairs = [("a", "b"), ("b", "c"), ("c", "a"), ("c", "b")]
    waits = {x: [(other, _rule(x, other, n)) for n, (one, other) in enumerate(pairs, 1) if one == x] for x in "abc"}
    assert circles(waits) == [
        (frozenset("abc"), (("b", _rule("b", "c", 2)), ("c", _rule("c", "b", 4)))),
    ]


def test_nothing_is_told_where_nothing_waits_for_itself() -> None:
    assert circles({"a": [("b", _rule("a", "b"))], "b": []}) == []


@given(EDGES)
def test_each_knot_is_told_once_by_a_circle_of_the_fewest_rules(edges: list[tuple[int, int, bool]]) -> None:
    # A step without a rule goes only upwards, as "out because lifted" does, so that no circle is without rules.
    steps = [(one, other, ruled or other <= one) for one, other, ruled in edges]
    waits: dict[int, list[tuple[int, Rule | None]]] = {node: [] for node in range(7)}
    for line, (one, other, ruled) in enumerate(steps, 1):
        waits[one].append((other, _rule(one, other, line) if ruled else None))
    graph = networkx.DiGraph([(one, other, {"rules": int(ruled)}) for one, other, ruled in steps])
    expected = {}
    for cycle in networkx.simple_cycles(graph):
        rules = sum(graph[a][b]["rules"] for a, b in zip(cycle, [*cycle[1:], cycle[0]], strict=True))
        knot = next(frozenset(part) for part in networkx.strongly_connected_components(graph) if cycle[0] in part)
        expected[knot] = min(rules, expected.get(knot, rules))
    found = circles(waits)
    assert {knot: len(circle) for knot, circle in found} == expected
    for _, circle in found:
        assert all(rule in [known for _, known in waits[thing]] for thing, rule in circle)
        assert circle[0][1].place == min(rule.place for _, rule in circle)
