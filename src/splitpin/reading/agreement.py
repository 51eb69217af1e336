"""What the keys of one table say together."""

from collections.abc import Callable, Iterator
from typing import Any

from splitpin.notices import Notice
from splitpin.notices.nearest import listed
from splitpin.reading.document import Document
from splitpin.reading.located import Located, Steps
from splitpin.records.assembly import Circuit, Component, Joint, Way
from splitpin.records.base import Record
from splitpin.records.catalogue import Hardware, Tool, ToolFamily
from splitpin.records.charges import Goods, Labour, Tax, Travel
from splitpin.records.disturbance import Store
from splitpin.records.job import Task
from splitpin.records.points import Point
from splitpin.records.procedure import Condition, Limit, ProcedureStep

RENEW_SEAL = "renew-seal"  # the one task that is done on a joint
_ASKED = ("component", "role", "joint")

_Table = dict[str, Any]


def agreement_notices(document: Document) -> list[Notice]:
    """Where keys of one table contradict each other or want another key beside them."""
    notices: list[Notice] = []
    for kind, steps, table in document.tables():
        if kind in _RULES:
            notices += _RULES[kind](document.toml, steps, table)
    return notices


def _component(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    if "behind" in table and "way" in table:
        message = f"{toml.named(steps)} has both `behind` and `[[component.way]]`"
        hint = "give each way its own `behind`"
        yield Notice("one-of", message, toml.key_place(*steps, "behind"), hint)


def _way(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    if ("off_s" in table or "on_s" in table) and "basis" not in table:
        hint = 'give basis = "common practice" or "from memory"'
        yield Notice("no-source", f"{toml.named(steps)} has seconds without a `basis`", toml.place(*steps), hint)


def _circuit(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    if "isolate" in table and "no_isolation" in table:
        message = f"{toml.named(steps)} has both `isolate` and `no_isolation`"
        yield Notice("one-of", message, toml.key_place(*steps, "no_isolation"))
    elif not table.get("isolate") and "no_isolation" not in table:
        message = f"{toml.named(steps)} has no way to be isolated, and does not say why"
        hint = 'give it `isolate`, or no_isolation = "why nothing need shut it off"'
        yield Notice("no-isolation", message, toml.place(*steps), hint)


# What a point of each kind can stand at; all others are open or closed.
_SETTINGS = {"supply": ("on", "off"), "switch": ("on", "off"), "link": ("joined", "parted", "open", "closed")}


def _point(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    if table.get("role") in ("isolates", "drains", "vents", "tests") and "circuit" not in table:
        message = f"{toml.named(steps)} has `role` = {toml.typed(*steps, 'role')} but no `circuit`"
        yield Notice("missing-key", message, toml.place(*steps, "role"), "name the circuit that it is a point of")
    allowed = _SETTINGS.get(str(table.get("kind")), ("open", "closed"))
    normally = table.get("normally")
    if isinstance(normally, str) and "kind" in table and normally not in allowed:
        message = f"`normally` is {toml.typed(*steps, 'normally')}; a point of this kind is {listed(allowed)}"
        yield Notice("point-misfit", message, toml.place(*steps, "normally"))


def _procedure_step(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    operated = table.get("operate")
    for index, one in enumerate(operated if isinstance(operated, list) else []):
        words = one.get("words") if isinstance(one, dict) else None
        if isinstance(words, str) and words not in str(table.get("text")):
            where = (*steps, "operate", index, "words")
            message = f"`words` is {toml.typed(*where)}, which does not stand in the `text` of its step"
            hint = "give the words of the text that the plant's own points take the place of"
            yield Notice("point-misfit", message, toml.place(*where), hint)


def _condition(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    if "sign" in table and "if_not" not in table:
        message = f"{toml.named(steps)} has `sign` but no `if_not`"
        yield Notice(
            "missing-key", message, toml.key_place(*steps, "sign"), "say what is done where the sign is not seen"
        )


def _store(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    if "condition" not in table and "catch" not in table:
        message = f"{toml.named(steps)} is neither let down by a `condition` nor caught: `catch`"
        yield Notice("missing-key", message, toml.place(*steps))


def _joint(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    if "torque_nm" in table and "torque_source" not in table:
        message = f"{toml.named(steps)} has `torque_nm` without `torque_source`"
        hint = "a torque is only as good as where it comes from: give its standard or table"
        yield Notice("no-source", message, toml.key_place(*steps, "torque_nm"), hint)
    if ("off_s" in table or "on_s" in table) and "basis" not in table:
        hint = 'give basis = "common practice" or "from memory"'
        yield Notice("no-source", f"{toml.named(steps)} has seconds without a `basis`", toml.place(*steps), hint)
    if "seal_count" in table and "seal" not in table:
        message = f"{toml.named(steps)} has `seal_count` but no `seal`"
        yield Notice("missing-key", message, toml.key_place(*steps, "seal_count"))
    between = table.get("between")
    if isinstance(between, list) and len(between) == 2 and between[0] == between[1]:
        message = f"{toml.named(steps)} holds nothing: both its ends are {toml.typed(*steps, 'between', 0)}"
        yield Notice("joint-holds-nothing", message, toml.place(*steps, "between"))


def _hardware(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    if table.get("reuse") == "n-times" and "uses" not in table:
        message = f'{toml.named(steps)} has `reuse` = "n-times" but no `uses`'
        yield Notice("missing-key", message, toml.place(*steps, "reuse"), "say how many times: uses = 5")


def _tool_family(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    for key in ("id", "title"):
        if isinstance(table.get(key), str) and "{size}" not in table[key]:
            message = f"`{key}` is {toml.typed(*steps, key)}; in a family of tools it must hold {{size}}"
            yield Notice("bad-id", message, toml.place(*steps, key))


def _rising(low: str, high: str) -> Callable[[Located, Steps, _Table], Iterator[Notice]]:
    def rule(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
        least, most = table.get(low), table.get(high)
        comparable = type(least) is type(most) or (isinstance(least, int | float) and isinstance(most, int | float))
        if least is not None and most is not None and comparable and least > most:
            message = f"`{low}` is {toml.typed(*steps, low)}, above `{high}`, which is {toml.typed(*steps, high)}"
            yield Notice("out-of-range", message, toml.place(*steps, low))

    return rule


def _limit(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    yield from _rising("min", "max")(toml, steps, table)
    yield from _rising("valid_from", "valid_until")(toml, steps, table)


def _task(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    asked = [key for key in _ASKED if key in table]
    if not asked:
        yield Notice("one-of", f"{toml.named(steps)} names nothing", toml.place(*steps), f"give it {listed(_ASKED)}")
    elif len(asked) > 1:
        message = f"{toml.named(steps)} has both `{asked[0]}` and `{asked[1]}`; one task is on one thing"
        yield Notice("one-of", message, toml.key_place(*steps, asked[1]), "make two tasks of it")


def _labour(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    if table.get("direction") in ("up", "nearest") and "step_min" not in table:
        message = f"{toml.named(steps)} has `direction` = {toml.typed(*steps, 'direction')} but no `step_min`"
        yield Notice("missing-key", message, toml.place(*steps, "direction"), "say to what: step_min = 15")
    for key, other in (("first_hour", "first_min"), ("first_min", "first_hour")):
        if key in table and other not in table:
            message = f"{toml.named(steps)} has `{key}` but no `{other}`"
            yield Notice("missing-key", message, toml.key_place(*steps, key))


def _wanted_by(chooser: str, wanted: dict[str, str]) -> Callable[[Located, Steps, _Table], Iterator[Notice]]:
    def rule(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
        choice = table.get(chooser)
        key = wanted.get(choice) if isinstance(choice, str) else None
        if key is not None and key not in table:
            message = f"{toml.named(steps)} has `{chooser}` = {toml.typed(*steps, chooser)} but no `{key}`"
            yield Notice("missing-key", message, toml.place(*steps, chooser))

    return rule


def _goods(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    yield from _wanted_by("consumables", {"flat": "flat"})(toml, steps, table)
    if "markup_percent" in table and "margin_percent" in table:
        message = f"{toml.named(steps)} has both `markup_percent` and `margin_percent`"
        hint = "mark-up is counted on the cost, margin on the price: give one of them"
        yield Notice("one-of", message, toml.key_place(*steps, "margin_percent"), hint)


def _tax(toml: Located, steps: Steps, table: _Table) -> Iterator[Notice]:
    for key in ("step", "never_nil"):
        if key in table and table.get("level") == "invoice":
            message = f'{toml.named(steps)} has `{key}`, which is for the tax of a line, and `level` = "invoice"'
            hint = "tax on the sum is rounded once, to the least amount of the currency"
            yield Notice("one-of", message, toml.key_place(*steps, key), hint)


_RULES: dict[type[Record], Callable[[Located, Steps, _Table], Iterator[Notice]]] = {
    Circuit: _circuit,
    Component: _component,
    Point: _point,
    Store: _store,
    ProcedureStep: _procedure_step,
    Condition: _condition,
    Way: _way,
    Joint: _joint,
    Hardware: _hardware,
    ToolFamily: _tool_family,
    Tool: _rising("min_nm", "max_nm"),
    Limit: _limit,
    Task: _task,
    Labour: _labour,
    Travel: _wanted_by("charge", {"flat": "flat", "time": "hour"}),
    Goods: _goods,
    Tax: _tax,
}
