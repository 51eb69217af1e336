"""Which tools a designation asks for, what they stand, and what a firm has of them."""

import networkx as nx
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from splitpin.hardware.designation import Designation
from splitpin.hardware.needed import needs, ring_pliers
from splitpin.hardware.parser import parse
from splitpin.hardware.tools import choose, driver_limits, too_weak, torque_tools
from splitpin.records.catalogue import Tool


def needed(text: str) -> tuple[tuple[str, ...], ...]:
    found = parse(text)
    assert isinstance(found, Designation), found
    return needs(found)


SOCKET_OR_SPANNER_13 = ("socket-13", "spanner-13")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # ISO 272 and the sizes before it: note in the head of DIN 979 (1987)
        ("ISO 4017 - M10 x 25", (("socket-16", "spanner-16"),)),
        ("DIN 933 - M10 x 25", (("socket-17", "spanner-17"),)),
        ("ISO 4014 - M12 x 60", (("socket-18", "spanner-18"),)),
        ("DIN 931 - M12 x 60", (("socket-19", "spanner-19"),)),
        ("ISO 4032 - M14", (("socket-21", "spanner-21"),)),
        ("DIN 934 - M14", (("socket-22", "spanner-22"),)),
        ("ISO 4032 - M22", (("socket-34", "spanner-34"),)),
        ("DIN 934 - M22", (("socket-32", "spanner-32"),)),
        # the designation leaves it open: both
        ("ISO 4017/DIN 933 - M10 x 25", (("socket-16", "spanner-16"), ("socket-17", "spanner-17"))),
        ("ISO 4017/DIN 933 - M8 x 25", (SOCKET_OR_SPANNER_13,)),
        ("DIN 985 - M12", (("socket-18", "spanner-18"), ("socket-19", "spanner-19"))),
        ("ISO 4162 - M12 x 30", (("socket-15", "spanner-15"), ("socket-16", "spanner-16"))),
        # two open tables differ: both
        ("ISO 14579 - M4 x 10", (("driver-tx-20",), ("driver-tx-25",))),
        ("ISO 7045 - M2 x 6 - H", (("driver-ph-0",), ("driver-ph-1",))),
        # a screw with its nut: the second spanner holds
        ("ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8 - 8", (SOCKET_OR_SPANNER_13, ("spanner-13", "socket-13"))),
        ("ISO 4762 - M8 x 25 - 8.8 + ISO 4032 - M8 - 8", (("hex-key-6",), ("spanner-13", "socket-13"))),
        ("ISO 4762 - M3 x 8", (("hex-key-2-5",),)),
        ("ISO 4026 - M3 x 4", (("hex-key-1-5",),)),
        ("ISO 7045 - M4 x 10 - Z", (("driver-pz-2",),)),
        ("ISO 7045 - M4 x 10 - H", (("driver-ph-2",),)),
        ("ISO 1207 - M3.5 x 10", (("driver-slot-5-5",),)),
        ("ISO 1580 - M6 x 10", (("driver-slot-8", "driver-slot-10"),)),
        ("ISO 7089 - 8", ()),
        ("ISO 228 - G 1", (("adjustable-spanner",), ("adjustable-spanner-second",))),
        ("EN 1254-2 - 22", (("adjustable-spanner",), ("adjustable-spanner-second",))),
        ("DIN 472 - 22 x 1", (("circlip-pliers-internal-12-25", "circlip-pliers-internal-19-60"),)),
        ("ISO 3601-1 - 210", (("plastic-pick",),)),
    ],
)
def test_the_tools_of_a_designation(text: str, expected: tuple[tuple[str, ...], ...]) -> None:
    assert needed(text) == expected


def test_no_pliers_reach_a_ring_beyond_them() -> None:
    with pytest.raises(LookupError, match="no external circlip pliers known for 120 mm"):
        ring_pliers("external", 120)


def test_a_torque_beyond_the_drivers_limit_is_named() -> None:
    # number 20: 10.5 to 12.7 N m (ISO 10664 socket; one encyclopaedia table)
    tools = needed("ISO 14583 - M4 x 10 - 4.8")
    assert [(one.tool, one.low_nm, one.high_nm) for one in driver_limits(tools)] == [("driver-tx-20", 10.5, 12.7)]
    assert too_weak(tools, 10.5) == ()
    assert [one.tool for one in too_weak(tools, 10.6)] == ["driver-tx-20"]


def test_no_limit_is_made_up_for_other_drivers() -> None:
    assert driver_limits(needed("ISO 4762 - M8 x 25")) == ()


def test_the_torque_tool_is_the_narrowest_that_reaches() -> None:
    tools = {
        name: Tool(id=name, title=name, min_nm=low, max_nm=high, basis="common practice")
        for name, low, high in (("wide", 5.0, 100.0), ("small", 1.0, 6.0), ("middle", 5.0, 25.0))
    }
    tools["spanner"] = Tool(id="spanner", title="spanner")
    assert torque_tools(5.5, tools) == ("small", "middle", "wide")
    assert torque_tools(30, tools) == ("wide",)
    assert torque_tools(200, tools) == ()


def test_what_is_on_the_van_is_preferred_and_what_is_missing_is_named() -> None:
    pair = needed("ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8 - 8")
    assert choose(pair, None) == choose(pair, {"socket-13", "spanner-13"})
    assert choose(pair, None).chosen == ("socket-13", "spanner-13")
    one = choose(pair, {"spanner-13"})
    assert (one.chosen, one.missing) == (("spanner-13",), ("spanner-13",))
    assert choose(pair, ()).missing == ("socket-13", "spanner-13")
    assert choose((), ()).missing == ()


TOOLS = st.sampled_from("abcde")
CHOICES = st.lists(st.lists(TOOLS, min_size=1, max_size=3, unique=True).map(tuple), max_size=4).map(tuple)


@settings(max_examples=150)
@given(CHOICES, st.sets(TOOLS))
def test_as_many_needs_as_possible_are_met(needed: tuple[tuple[str, ...], ...], owned: set[str]) -> None:
    # against the largest matching of needs and tools, as a graph library finds it
    graph = nx.Graph()
    entries = [("need", number) for number in range(len(needed))]
    graph.add_nodes_from(entries)
    for number, choice in enumerate(needed):
        graph.add_edges_from((("need", number), tool) for tool in choice if tool in owned)
    matching = nx.bipartite.maximum_matching(graph, top_nodes=entries) if needed else {}
    met = sum(1 for entry in entries if entry in matching)
    found = choose(needed, owned)
    assert len(found.chosen) == met
    assert len(found.chosen) + len(found.missing) == len(needed)
    assert len(set(found.chosen)) == len(found.chosen)
    assert set(found.chosen) <= owned


@settings(max_examples=100)
@given(CHOICES)
def test_the_best_of_each_choice_is_taken_where_no_two_are_the_same(needed: tuple[tuple[str, ...], ...]) -> None:
    firsts = tuple(choice[0] for choice in needed)
    assume(len(set(firsts)) == len(firsts))
    assert choose(needed, None).chosen == firsts
