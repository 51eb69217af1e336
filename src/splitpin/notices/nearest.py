"""The known name that a mistyped one was meant to be."""

import difflib
from collections.abc import Iterable

_ENOUGH_TO_LIST = 12
_CLOSE = 0.65  # as difflib counts; two letters changed round in a word of three still pass


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The closest known name, or None where none is close; of equally close ones the first in the alphabet."""
    names = sorted(known)
    folded = name.strip().lower().replace("_", "-").replace(" ", "-")
    exact = next((other for other in names if other.replace("_", "-") == folded), None)
    return exact or next(iter(difflib.get_close_matches(name, names, n=1, cutoff=_CLOSE)), None)


def listed(names: Iterable[str], last: str = "or") -> str:
    """`a`, `b` or `c`."""
    quoted = [f"`{name}`" for name in names]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} {last} {quoted[-1]}"


def among(name: str, known: Iterable[str]) -> str:
    """A hint: the nearest name, else all of them where they are few."""
    names = sorted(known)
    near = nearest(name, names)
    if near is not None:
        return f"did you mean `{near}`?"
    return f"there are {listed(names, 'and')}" if 1 < len(names) <= _ENOUGH_TO_LIST else _none_or_one(names)


def _none_or_one(names: list[str]) -> str:
    return f"there is only `{names[0]}`" if len(names) == 1 else ""
