"""Every file that is named, checked."""

from collections.abc import Sequence
from pathlib import Path

from splitpin.notices import Notice, in_order
from splitpin.reading.library import read_library


def check_paths(paths: Sequence[Path]) -> tuple[Notice, ...]:
    """What is wrong with these files and folders; with no paths: with the whole catalogue and procedures."""
    return in_order(read_library()[1])
