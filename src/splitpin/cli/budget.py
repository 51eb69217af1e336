"""When a search must stop: a number of seconds, or Ctrl-C; either way the best so far is kept."""

import signal
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType


@contextmanager
def budget(seconds: float | None) -> Iterator[Callable[[], bool]]:
    """A question for the search to ask: is it time to stop? The first Ctrl-C says yes, a second one interrupts as
    usual.
    """
    pressed = False
    end = None if seconds is None else time.monotonic() + seconds

    def press(number: int, frame: FrameType | None) -> None:
        nonlocal pressed
        pressed = True
        signal.signal(signal.SIGINT, before)

    def stop() -> bool:
        return pressed or (end is not None and time.monotonic() >= end)

    before = signal.signal(signal.SIGINT, press)
    try:
        yield stop
    finally:
        signal.signal(signal.SIGINT, before)
