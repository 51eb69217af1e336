"""What a calculated reading is: its inputs, its results, the formula and where that comes from.

A reading is worked out from figures that an engineer reads or knows: 361 ppm of CO and 9.0 % of CO2 make a ratio of
0.00401. All arithmetic is exact (`Fraction`), so that a value on the edge of a limit stays on it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

Value = Fraction | str


class OutsideMethod(Exception):
    """The inputs are fine one by one, but the method does not cover them together. Carries what to do instead."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


@dataclass(frozen=True, slots=True)
class Number:
    """An input that is a figure in `unit`, from `low` to `high` inclusive; bounds and default as decimal text.

    The bounds keep out slips of the pen and of the unit (our own rule); where a source bounds its method they are its.
    """

    name: str
    title: str
    unit: str
    low: str
    high: str
    default: str | None = None

    @property
    def allowed(self) -> str:
        """`0 to 20000 ppm`."""
        return f"{self.low} to {self.high} {self.unit}"


@dataclass(frozen=True, slots=True)
class Choice:
    """An input that is one of a few words."""

    name: str
    title: str
    options: tuple[str, ...]
    default: str | None = None
    unit: str = ""

    @property
    def allowed(self) -> str:
        """`g4, u6 or none`."""
        return f"{', '.join(self.options[:-1])} or {self.options[-1]}"


@dataclass(frozen=True, slots=True)
class Flag:
    """An input that is `yes` or `no`; it reaches the formula as a bool."""

    name: str
    title: str
    default: str
    unit: str = ""

    @property
    def allowed(self) -> str:
        """`yes or no`."""
        return "yes or no"


Input = Number | Choice | Flag


@dataclass(frozen=True, slots=True)
class Result:
    """One thing that comes out: figures in `unit` with `digits` after the point, or words (no unit).

    `limit` is the id of a row of `procedures/limits/` in the same unit.
    """

    name: str
    title: str
    unit: str = ""
    digits: int = 0
    limit: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A calculated reading. `compute` takes the inputs by name and gives one value for each result, in their order;
    it raises OutsideMethod where the method ends. `decides` is a limit that is chosen by the result, not compared
    with it.
    """

    name: str
    title: str
    inputs: tuple[Input, ...]
    results: tuple[Result, ...]
    formula: str
    source: str
    compute: Callable[..., tuple[Value, ...]]
    note: str = ""
    decides: str | None = None


def words(value: Value, digits: int) -> str:
    """A value with `digits` (>= 0) after the point, halves away from nought: `0.00401`; words stay as they are."""
    if isinstance(value, str):
        return value
    whole = int(abs(value) * 10**digits + Fraction(1, 2))
    text = str(whole).rjust(digits + 1, "0")
    sign = "-" if value < 0 and whole else ""
    return sign + (f"{text[:-digits]}.{text[-digits:]}" if digits else text)
