"""Names that mean the same in every assembly, to every visit and firm."""

from typing import Literal

FRAME = "frame"  # the fixed part: never lifted
HAND_OVER = "hand-over"  # the proof that every visit ends with
BENCH = "bench"  # where carried groups are worked on once they are out

HabitId = Literal[
    "work-when-open",
    "ranks",
    "alike",
    "bearing-last",
    "open-first",
    "dirt-first",
    "tasks-in-turn",
    "close-first",
    "nothing-more",
    "not-too-far",
]
"""The habits of the trade that narrow an order and that a firm may keep or not; `planning` says what each asks."""
