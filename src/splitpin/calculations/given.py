"""From `key=value` as typed to exact figures, or everything that is wrong with them at once."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from splitpin.calculations.reading import Flag, Input, Number, Reading
from splitpin.notices.nearest import among, nearest

_DECIMAL = re.compile(r"[+-]?[0-9]{1,15}(\.[0-9]{0,15})?|[+-]?\.[0-9]{1,15}")


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong with an input (its name; None where the inputs do not go together), and what to do."""

    input: str | None
    message: str
    hint: str


@dataclass(frozen=True, slots=True)
class Given:
    """An input with its value, as typed or by default."""

    input: Input
    text: str
    by_default: bool

    @property
    def value(self) -> Fraction | str | bool:
        """The figure, the word, or yes as True."""
        if isinstance(self.input, Number):
            return Fraction(self.text)
        return self.text == "yes" if isinstance(self.input, Flag) else self.text


def read_given(reading: Reading, pairs: Iterable[str]) -> tuple[tuple[Given, ...], tuple[Problem, ...]]:
    """The inputs of a reading in their order from `key=value` texts, and what is wrong; use them only without problems.

    Cost grows with the pairs.
    """
    inputs = {one.name: one for one in reading.inputs}
    typed: dict[str, str] = {}
    problems, meant = [], set()
    for pair in pairs:
        name, equals, text = (part.strip() for part in pair.partition("="))
        if not equals:
            problems.append(Problem(None, f"`{pair}` is not an input", "write each input as key=value"))
        elif name not in inputs:
            problems.append(Problem(name, f"{reading.name} has no input `{name}`", among(name, inputs)))
            meant.add(nearest(name, inputs))
        elif name in typed:
            problems.append(Problem(name, f"`{name}` is given twice", "give it once"))
        else:
            typed[name] = text
            problems += _wrong(inputs[name], text)
    problems += [_missing(one) for one in reading.inputs if one.default is None and one.name not in {*typed, *meant}]
    given = [Given(one, typed.get(one.name, one.default or ""), one.name not in typed) for one in reading.inputs]
    return tuple(given), tuple(problems)


def _missing(one: Input) -> Problem:
    return Problem(one.name, f"`{one.name}` is missing: {one.title}", f"add {one.name}=…, {one.allowed}")


def _wrong(one: Input, text: str) -> list[Problem]:
    if not isinstance(one, Number):
        options = ("yes", "no") if isinstance(one, Flag) else one.options
        if text in options:
            return []
        return [Problem(one.name, f"`{one.name}={text}` is not a choice", f"{one.title}: {one.allowed}")]
    if not _DECIMAL.fullmatch(text):
        hint = f"write the figure alone, in {one.unit}, with a decimal point; {one.allowed}"
        return [Problem(one.name, f"`{one.name}={text}` is not a figure", hint)]
    if not Fraction(one.low) <= Fraction(text) <= Fraction(one.high):
        hint = f"{one.title}: {one.allowed}; check the figure and its unit"
        return [Problem(one.name, f"`{one.name}={text}` is out of range", hint)]
    return []
