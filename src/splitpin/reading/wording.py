"""What a wrong value is told: the field and the value as typed, and what is allowed; never a type's name."""

import re
from collections.abc import Callable
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from splitpin.notices import Notice
from splitpin.notices.nearest import listed, nearest
from splitpin.reading.located import Located, Steps
from splitpin.reading.quantities import converted, same_in_other_unit
from splitpin.reading.tables import nested
from splitpin.records.base import Record
from splitpin.units.money import amount

_ID_RULE = "an id has lower-case letters, digits and single hyphens between them"
_KINDS = {
    "string_type": "text in quotes",
    "int_type": "a whole number",
    "float_type": "a number",
    "bool_type": "true or false",
    "date_type": "a date like 2026-03-31, without quotes",
    "tuple_type": "a list in square brackets",
    "dict_type": "a table",
}
_BOUNDS = {
    "greater_than": ("more than", "gt"),
    "greater_than_equal": ("at least", "ge"),
    "less_than": ("less than", "lt"),
    "less_than_equal": ("at most", "le"),
}


def value_notices(error: ValidationError, toml: Located, kind: type[Record]) -> list[Notice]:
    """One notice for each fault, in the order in which they were found.

    A key that is missing because it was misspelt or given in another unit is not reported as missing as well.
    """
    faults = [_Fault(details, toml, kind) for details in error.errors(include_url=False)]
    meant = {fault.meant for fault in faults}
    return [fault.notice() for fault in faults if not (fault.type == "missing" and fault.steps in meant)]


class _Fault:
    """One fault as the records' library reports it, found again in the file."""

    def __init__(self, details: ErrorDetails, toml: Located, kind: type[Record]) -> None:
        self.type = details["type"]
        self.context: dict[str, Any] = details.get("ctx", {})
        self.toml = toml
        self.of_key = details["loc"][-1:] == ("[key]",)
        self.steps = _as_typed(details["loc"][:-1] if self.of_key else details["loc"], toml)
        self.known = _keys_of(kind, self.steps[:-1])
        self.inner = _keys_of(kind, self.steps)

    # -- what the file says there

    @property
    def field(self) -> str:
        """The key that the value stands under, or the list it is in."""
        return next((step for step in reversed(self.steps) if isinstance(step, str)), "")

    @property
    def typed(self) -> str:
        return self.toml.typed(*self.steps)

    @property
    def value(self) -> Any:
        return self.toml.value(self.steps)

    @property
    def inline(self) -> bool:
        """Whether the value stands after an `=`, not under a header."""
        return self.toml.spot(self.steps).written

    def says(self, allowed: str) -> str:
        if isinstance(self.steps[-1], int):
            return f"`{self.field}` holds {self.typed}; each item must be {allowed}"
        return f"`{self.field}` is {self.typed}; it must be {allowed}"

    def here(self, code: str, message: str, hint: str = "") -> Notice:
        return Notice(code, message, self.toml.place(*self.steps), hint)

    @property
    def meant(self) -> Steps | None:
        """The key that an unknown one was meant to be."""
        if self.type != "extra_forbidden":
            return None
        name = str(self.steps[-1])
        known = self.known or {}
        other = same_in_other_unit(name, known) or nearest(name, known)
        return None if other is None else (*self.steps[:-1], other)

    # -- the notice

    def notice(self) -> Notice:
        if self.of_key:
            return Notice(
                "bad-id",
                f"the name `{self.field}` is not an id: {_ID_RULE}",
                self.toml.key_place(*self.steps),
                _slug(self.field),
            )
        if self.type in ("tuple_type", "model_type") and isinstance(self.value, dict | list) and not self.inline:
            return self.brackets()
        if self.type in _KINDS:
            return self.here("wrong-kind", self.says(_KINDS[self.type]), self._kind_hint())
        if self.type == "amount":
            return self.here("wrong-kind", self.says('an amount in quotes, like "12.50"'), self._amount_hint())
        if self.type in _BOUNDS:
            words, bound = _BOUNDS[self.type]
            return self.here("out-of-range", self.says(f"{words} {self.context[bound]:g}"))
        return _WORDED[self.type](self)

    def _kind_hint(self) -> str:
        match self.type, self.value:
            case "tuple_type", str():
                return f"write {self.field} = [{self.typed}]"
            case "int_type", float() as number if number.is_integer():
                return f"write {self.field} = {number:.0f}"
            case (("int_type" | "float_type"), str() as text) if re.fullmatch(r"-?\d+(\.\d+)?", text):
                return f"write {self.field} = {text} without quotes"
            case "string_type", (int() | float()):
                return f'write {self.field} = "{self.typed}"'
        return ""

    def _amount_hint(self) -> str:
        """Quotes round a bare figure, a point for a decimal comma; else what an amount has."""
        figure = self.typed.strip('"').replace(",", ".")
        if amount(figure) is not None:
            return f'write {self.field} = "{figure}"'
        return "no currency sign, no commas, at most four digits after the point"

    def brackets(self) -> Notice:
        """A header with one pair of brackets too few or too many."""
        name = ".".join(step for step in self.steps if isinstance(step, str))
        if self.type == "tuple_type":
            message, hint = f"`{name}` is a list of tables, even of one", f"write [[{name}]]"
        else:
            message, hint = f"`{name}` is one table, not a list of them", f"write [{name}]"
        return self.here("wrong-kind", message, hint)

    def table(self) -> Notice:
        keys = ", ".join(f"`{key}`" for key, needed in (self.inner or {}).items() if needed)
        unnamed = self.steps[-2:-1] == ("work",)
        hint = "name the task in the header: [component.work.inspect]" if unnamed else ""
        return self.here("wrong-kind", self.says(f"a table with {keys}" if keys else "a table"), hint)

    def choice(self) -> Notice:
        allowed = re.findall(r"'([^']*)'", self.context["expected"])
        hint = ""
        if isinstance(self.value, str) and (near := nearest(self.value, allowed)):
            hint = f"did you mean `{near}`?"
        return self.here("not-a-choice", self.says(listed(allowed)), hint)

    def bad_id(self) -> Notice:
        verb = "holds" if isinstance(self.steps[-1], int) else "is"
        return self.here("bad-id", f"`{self.field}` {verb} {self.typed}; {_ID_RULE}", _slug(str(self.value)))

    def text_length(self) -> Notice:
        if self.type == "string_too_short":
            return self.here("out-of-range", f"`{self.field}` is empty; it must say something")
        return self.here("out-of-range", f"`{self.field}` is too long; at most {self.context['max_length']} characters")

    def list_length(self) -> Notice:
        least, most = self.context.get("min_length"), self.context.get("max_length")
        wanted = f"at least {least}" if self.type == "too_short" else f"at most {most}"
        count = len(self.value)
        items = "1 item" if count == 1 else f"{count} items"
        return self.here("out-of-range", f"`{self.field}` has {items}; it must have {wanted}")

    def not_finite(self) -> Notice:
        return self.here("out-of-range", self.says("an ordinary number"))

    def unknown_key(self) -> Notice:
        name = str(self.steps[-1])
        table = self.toml.named(self.steps[:-1])
        place = self.toml.key_place(*self.steps)
        known = self.known or {}
        other = same_in_other_unit(name, known)
        if other is not None:
            return Notice(
                "wrong-unit", f"`{name}` is not a key of {table}; the key is `{other}`", place, self._in_unit(other)
            )
        near = nearest(name, known)
        hint = f"did you mean `{near}`?" if near else f"its keys are {listed(sorted(known), 'and')}"
        return Notice("unknown-key", f"`{name}` is not a key of {table}", place, hint)

    def _in_unit(self, other: str) -> str:
        plain = isinstance(self.value, int | float) and not isinstance(self.value, bool)
        figure = converted(self.value, str(self.steps[-1]), other) if plain else None
        return f"write {other} = {figure}" if figure else f"give it under `{other}`"

    def missing_key(self) -> Notice:
        table = self.steps[:-1]
        return Notice("missing-key", f"{self.toml.named(table)} has no `{self.field}`", self.toml.place(*table))

    def rule(self) -> Notice:
        """A rule of the record's own, which names itself."""
        if str(self.context["error"]) == "no-source":
            return no_source(self.toml, self.steps)
        return self.here(
            "out-of-range", f"`{self.field}` is {self.typed}; `low`, `mode` and `high` must rise in this order"
        )


_WORDED: dict[str, Callable[[_Fault], Notice]] = {
    "model_type": _Fault.table,
    "literal_error": _Fault.choice,
    "string_pattern_mismatch": _Fault.bad_id,
    "string_too_short": _Fault.text_length,
    "string_too_long": _Fault.text_length,
    "too_short": _Fault.list_length,
    "too_long": _Fault.list_length,
    "finite_number": _Fault.not_finite,
    "extra_forbidden": _Fault.unknown_key,
    "missing": _Fault.missing_key,
    "value_error": _Fault.rule,
}


def no_source(toml: Located, steps: Steps) -> Notice:
    """A table with figures of which nobody says where they come from."""
    return Notice(
        "no-source",
        f"{toml.named(steps)} has figures with neither `source` nor `basis`",
        toml.place(*steps),
        'give source = "standard, edition, table", or basis = "common practice" or "from memory"',
    )


def _as_typed(loc: tuple[str | int, ...], toml: Located) -> Steps:
    """The records turn `["a", "b"]` into a choice of one set; the file has one list less."""
    steps: list[str | int] = []
    for step in loc:
        flat = len(steps) > 1 and steps[-2] == "behind" and steps[-1] == 0 and isinstance(step, int)
        if flat and not isinstance(toml.value(tuple(steps)), list):
            steps[-1] = step
        else:
            steps.append(step)
    while steps and isinstance(steps[-1], int) and toml.value(tuple(steps)) is None:
        steps.pop()
    return tuple(steps)


def _keys_of(kind: type[Record], steps: Steps) -> dict[str, bool] | None:
    """The keys of the table at the end of the steps, and whether each must be there; None where it is no record."""
    here: type[Record] | None = kind
    by_name = False
    for step in steps:
        if by_name:
            by_name = False
        elif isinstance(step, str):
            if here is None or step not in nested(here):
                return None
            here, by_name = nested(here)[step]
    if here is None or by_name:
        return None
    return {name: field.is_required() for name, field in here.model_fields.items() if name != "place"}


def _slug(text: str) -> str:
    words = re.findall(r"[a-z0-9]+", text.lower())
    return f'write "{"-".join(words)}"' if words else ""
