"""What the nodes of a visit's graph are called, from the opening to the last step.

Doings, each done once: ("lift", component, way index), ("bench", component) for a carried component taken off at the
bench, ("undo", joint), ("undo-bench", joint), ("make", condition), ("work", task index). States that several doings
give: ("out", component), ("clear", component), ("moved", component), ("aside", component), ("clear-bench",
component), ("undone", joint), ("isolated", circuit), ("bared", medium).
"""

Key = tuple[str, ...]
Doings = dict[Key, tuple[Key, ...]]
"""Every doing of an opening with the doings that come straight before it."""

DOINGS = frozenset({"lift", "bench", "undo", "undo-bench", "make", "work"})
LIFTING = ("lift", "bench")
UNDOING = ("undo", "undo-bench")
