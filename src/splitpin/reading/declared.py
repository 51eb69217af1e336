"""The names that files declare, and names declared twice."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from splitpin.notices import Notice, Place
from splitpin.reading.document import Document
from splitpin.reading.located import Steps
from splitpin.records.assembly import Assembly, Circuit, Component, Isolation, Joint, Symptom
from splitpin.records.base import Record
from splitpin.records.catalogue import (
    Boundary,
    Hardware,
    Kind,
    Licence,
    Medium,
    Part,
    Seal,
    Tool,
    ToolFamily,
    UsualWork,
)
from splitpin.records.disturbance import Examination, Function
from splitpin.records.effort import Event, SiteFactor, TimeSpread
from splitpin.records.points import Point
from splitpin.records.procedure import (
    Caution,
    Condition,
    Emergency,
    Fact,
    Limit,
    LimitsFile,
    Proof,
    Reading,
    TemplateHead,
    Wording,
)
from splitpin.records.words import BENCH, FRAME

# What a table's `id` declares; the tables of an assembly declare it for that assembly alone.
EVERYWHERE: dict[type[Record], str] = {
    Kind: "kind",
    Hardware: "hardware",
    Seal: "seal",
    Tool: "tool",
    ToolFamily: "tool",
    Part: "part",
    Medium: "medium",
    Boundary: "boundary",
    Licence: "licence",
    UsualWork: "usual work",
    TimeSpread: "time spread",
    SiteFactor: "site factor",
    Event: "event",
    Condition: "condition",
    Proof: "proof",
    Caution: "caution",
    Emergency: "emergency",
    Wording: "wording",
    Fact: "fact",
    Reading: "reading",
    TemplateHead: "template",
}
_IN_ASSEMBLY: dict[type[Record], str] = {
    Circuit: "circuit",
    Component: "component",
    Joint: "joint",
    Symptom: "symptom",
    Point: "point",
    Examination: "examination",
    Function: "function",
}
_ID_LINE = re.compile(r"""^[ \t]*id[ \t]*=[ \t]*["']([a-z0-9-]+)["']""", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Declaration:
    """A name: the document, the table that declares it, the way to that table, and the way to the name itself."""

    document: Document
    owner: dict[str, Any]
    steps: Steps
    where: Steps

    @property
    def place(self) -> Place:
        """The place of the name."""
        return self.document.toml.place(*self.where)


Names = dict[str, dict[str, Declaration]]  # by what they name, then by name


@dataclass(slots=True)
class Declared:
    """All names of a set of documents.

    `inside` holds an assembly's own names by the assembly's path. `perhaps` are ids that stand in files which could not
    be read, or of rows that are left out: nobody is told that they are missing.
    """

    everywhere: Names = field(default_factory=dict)
    inside: dict[str, Names] = field(default_factory=dict)
    perhaps: set[str] = field(default_factory=set)
    notices: list[Notice] = field(default_factory=list)

    def of(self, noun: str) -> dict[str, Declaration]:
        """The names of one sort that hold everywhere."""
        return self.everywhere.get(noun, {})


def declared(documents: Iterable[Document]) -> Declared:
    """Every name that the documents declare; of two alike the first counts and the second is given notice of.

    Documents are taken in the order given. Cost grows with the tables in them.
    """
    found = Declared()
    for document in documents:
        if document.kind is Record:
            found.perhaps.update(_ID_LINE.findall(document.toml.lines.text))
        found.perhaps.update(str(document.toml.value((*row, "id"))) for row in document.left_out)
        inside: Names = found.inside.setdefault(document.path, {}) if document.kind is Assembly else {}
        for kind, steps, table in document.tables():
            for noun, name, where in _names(kind, steps, table):
                everywhere = noun in EVERYWHERE.values() or noun in ("assembly", "jurisdiction", "limit")
                names = (found.everywhere if everywhere else inside).setdefault(noun, {})
                declaration = Declaration(document, table, steps, where)
                first = names.setdefault(name, declaration)
                if first is not declaration and not _may_repeat(noun, first, declaration):
                    found.notices.append(_duplicate(noun, name, declaration.place, first.place))
        reserved = inside.get("component", {}).get(FRAME)
        if reserved is not None:
            message = f'`id` is "{FRAME}"; that is the fixed part of every assembly, so no component may have the name'
            found.notices.append(Notice("duplicate-id", message, reserved.place))
    return found


def _names(kind: type[Record], steps: Steps, table: dict[str, Any]) -> Iterator[tuple[str, str, Steps]]:
    """What a table declares: the sort of thing, the name, the way to it."""
    noun = EVERYWHERE.get(kind) or _IN_ASSEMBLY.get(kind) or ("limit" if kind is Limit else None)
    name = table.get("id")
    if noun is not None and isinstance(name, str):
        for one in _sizes(name, table) if kind is ToolFamily else [name]:
            yield noun, one, (*steps, "id")
    elif kind is Isolation and isinstance(by := table.get("by"), str):
        yield "way to isolate", by, (*steps, "by")
    elif kind in (Assembly, LimitsFile):
        head = "assembly" if kind is Assembly else "jurisdiction"
        for position in (BENCH,) if kind is Assembly else ():
            yield "position", position, ("assembly", "positions")
        inner = table.get(head)
        if not isinstance(inner, dict):
            return
        if isinstance(name := inner.get("id"), str):
            yield head, name, (head, "id")
        positions = inner.get("positions")
        for index, position in enumerate(positions if isinstance(positions, list) else []):
            if isinstance(position, str) and position != BENCH:
                yield "position", position, ("assembly", "positions", index)
    if kind is Component and isinstance(role := table.get("role"), str):
        yield "role", role, (*steps, "role")


def _sizes(name: str, family: dict[str, Any]) -> list[str]:
    sizes = family.get("sizes")
    texts = [size for size in sizes if isinstance(size, str)] if isinstance(sizes, list) else []
    return [name.replace("{size}", size.replace(".", "-")) for size in texts]


def _may_repeat(noun: str, first: Declaration, again: Declaration) -> bool:
    """Roles, ways to isolate and readings are shared; a limit has a row for each jurisdiction and span of dates."""
    if noun in ("role", "way to isolate", "reading"):
        return True
    return noun == "limit" and (first.document is not again.document or _apart(first.owner, again.owner))


def _apart(first: dict[str, Any], again: dict[str, Any]) -> bool:
    """Whether one row's validity ends before the other's begins."""

    def ends_before(one: dict[str, Any], other: dict[str, Any]) -> bool:
        until, since = one.get("valid_until"), other.get("valid_from")
        return type(until) is type(since) and until is not None and since is not None and until < since

    return ends_before(first, again) or ends_before(again, first)


def _duplicate(noun: str, name: str, place: Place, first: Place) -> Notice:
    return Notice("duplicate-id", f'the {noun} "{name}" is declared twice', place, f"it is first declared at {first}")
