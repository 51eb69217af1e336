"""Names that mean the same in every assembly."""

FRAME = "frame"  # the fixed part: never lifted
BENCH = "bench"  # where carried groups are worked on once they are out
