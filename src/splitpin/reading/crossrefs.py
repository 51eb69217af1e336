"""Names that nothing declares."""

from collections.abc import Iterator
from typing import Any

from splitpin.hardware.resolving import ROW_ID
from splitpin.notices import Notice
from splitpin.notices.nearest import among, nearest
from splitpin.reading.declared import Declared, Names
from splitpin.reading.document import Document
from splitpin.reading.located import Steps
from splitpin.records.assembly import Assembly, Circuit, Component, Isolation, Joint, Move, Suspect, Way, Work
from splitpin.records.base import Record
from splitpin.records.catalogue import Boundary, Hardware, Medium, Part, Seal, UsualWork
from splitpin.records.disturbance import Brings, Examination, Function, Store
from splitpin.records.effort import Event
from splitpin.records.firm import FirmHead, FirmTools
from splitpin.records.job import Asked, JobFile, JobHead, Site, Task
from splitpin.records.points import Point
from splitpin.records.procedure import Caution, Condition, Emergency, Fact, OnlyIf, ProcedureStep, Proof, Reading
from splitpin.records.round import VanHead
from splitpin.records.words import FRAME

# Which sort of thing each key names; where there are two, either will do.
_IN_WORK: dict[str, tuple[str, ...]] = {
    "tools": ("tool",),
    "consumables": ("part",),
    "parts": ("part",),
    "conditions": ("condition",),
    "proofs": ("proof",),
    "cautions": ("caution",),
}
_REFERS: dict[type[Record], dict[str, tuple[str, ...]]] = {
    Isolation: {"makes": ("condition",), "position": ("position",)},
    Circuit: {
        "medium": ("medium",),
        "before_opening": ("condition",),
        "after_remaking": ("proof",),
        "feeds": ("point",),
        "drivers": ("point",),
    },
    Point: {
        "circuit": ("circuit",),
        "by": ("way to isolate",),
        "position": ("position",),
        "behind": ("component",),
        "tools": ("tool",),
    },
    Brings: {"opened": ("proof",), "put_back": ("proof",), "changed": ("proof",)},
    Examination: {"of": ("component", "boundary"), "proofs": ("proof",)},
    Function: {
        "proof": ("proof",),
        "components": ("component",),
        "circuits": ("circuit",),
        "behind": ("component",),
    },
    Store: {"condition": ("condition",), "catch": ("tool",)},
    Work: _IN_WORK,
    UsualWork: _IN_WORK,
    Way: {"undoes": ("joint",), "behind": ("component",), "bench_behind": ("component",), "tools": ("tool",)},
    Component: {
        "position": ("position",),
        "behind": ("component",),
        "bench_behind": ("component",),
        "carried_by": ("component",),
        "part": ("part",),
        "part_includes": ("component",),
        "forms": ("boundary",),
        "guards": ("medium",),
        "proves": ("proof",),
        "cautions": ("caution",),
        "closed_to": ("licence",),
        "open_joints": ("joint",),
        "sheds_into": ("component",),
        "out_for": ("proof",),
    },
    Joint: {
        "between": ("component",),
        "circuit": ("circuit",),
        "seal": ("seal",),
        "position": ("position",),
        "behind": ("component",),
        "bench_behind": ("component",),
        "cautions": ("caution",),
        "conditions": ("condition",),
        "proofs": ("proof",),
    },
    Move: {"between": ("position",)},
    Suspect: {"component": ("component",)},
    Hardware: {"kind": ("kind",), "tools": ("tool",), "part": ("part",), "consumables": ("part",)},
    Seal: {"part": ("part",), "consumables": ("part",)},
    Part: {"superseded_by": ("part",), "alternatives": ("part",)},
    VanHead: {"may_not_carry": ("part",), "licences": ("licence",)},
    Medium: {
        "before_opening": ("condition",),
        "after_remaking": ("proof",),
        "cautions": ("caution",),
        "licence": ("licence",),
        "before_joints": ("condition",),
        "catch": ("tool",),
    },
    Event: {"kinds": ("kind",), "conditions": ("condition",), "proofs": ("proof",), "parts": ("part",)},
    Boundary: {"before_opening": ("condition",), "after_remaking": ("proof",), "cautions": ("caution",)},
    ProcedureStep: {
        "tools": ("tool",),
        "consumables": ("part",),
        "cautions": ("caution",),
        "after": ("proof", "condition"),
    },
    OnlyIf: {"reading": ("reading",)},
    Caution: {"wear": ("tool",), "lay": ("tool",)},
    Fact: {"conditions": ("condition",), "cautions": ("caution",), "proofs": ("proof",)},
    Site: {"facts": ("fact",)},
    Condition: {
        "after": ("condition",),
        "excludes": ("condition",),
        "release_after": ("proof", "condition"),
        "cautions": ("caution",),
        "licence": ("licence",),
        "satisfies": ("condition",),
    },
    Proof: {
        "held": ("condition",),
        "after": ("proof",),
        "looks_again": ("proof",),
        "only_with": ("medium",),
        "never_with": ("medium",),
        "cautions": ("caution",),
        "licence": ("licence",),
    },
    Reading: {"limit": ("limit",)},
    Emergency: {"signs": ("wording",)},
    JobHead: {
        "assembly": ("assembly",),
        "jurisdiction": ("jurisdiction",),
        "template": ("template",),
        "symptoms": ("symptom",),
        "rule_out": ("way to isolate",),
        "already": ("condition",),
        "site_factors": ("site factor",),
    },
    Task: {"component": ("component",), "role": ("role",), "joint": ("joint",)},
    FirmHead: {"jurisdiction": ("jurisdiction",)},
    FirmTools: {"owned": ("tool",)},
}
# What is meant only where the plan has it anyway: such a name must be declared, but asks for nothing.
_IF_THERE: dict[type[Record], frozenset[str]] = {
    Condition: frozenset({"excludes", "release_after"}),
    Proof: frozenset({"held", "after", "only_with", "never_with"}),
    ProcedureStep: frozenset({"after"}),
}
_OF_ASSEMBLY = frozenset({"circuit", "component", "joint", "symptom", "position", "role", "way to isolate", "point"})


def reference_notices(document: Document, names: Declared) -> list[Notice]:
    """Every name in the document that none of the declared ones answers. Cost grows with the names in it."""
    inside = assembly_names(document, names)
    whole = isinstance(document.record, Assembly)  # with all its builds: no file that is broken can add to it
    notices: list[Notice] = []
    for kind, steps, table in document.tables():
        for key, nouns in _REFERS.get(kind, {}).items():
            if nouns[0] in _OF_ASSEMBLY and (
                inside is None or (nouns == ("position",) and len(inside["position"]) < 2)
            ):
                continue  # the job's assembly, or the assembly's own list, is not there: that is notice enough
            known = [_names_of(noun, names, inside or {}) for noun in nouns]
            for item_steps, name in texts(table.get(key), (*steps, key)):
                allowed = kind is Joint and key == "between" and name == FRAME
                excused = name in names.perhaps and not (whole and nouns[0] in _OF_ASSEMBLY)
                if not allowed and not any(name in some for some in known) and not excused:
                    notices.append(_unknown(document, item_steps, nouns, names, inside or {}))
        if kind is Asked:
            notices += answer_notices(document, steps, names)
        if kind is Joint:
            notices += hardware_notices(document, steps, names)
    return notices


def answer_notices(document: Document, asked: Steps, names: Declared) -> list[Notice]:
    """Answers to questions about emergencies that nothing declares."""
    answers = document.toml.value((*asked, "answers"))
    known = names.of("emergency")
    return [
        Notice(
            "unknown-id",
            f'`answers` names "{name}", but there is no emergency of that name',
            document.toml.place(*asked, "answers", name),
            among(name, known),
        )
        for name in (answers if isinstance(answers, dict) else {})
        if name not in known and name not in names.perhaps
    ]


def named(kind: type[Record], table: dict[str, Any]) -> Iterator[tuple[str, str]]:
    """Each name that a table asks for, with each sort of thing that it may name."""
    for key, nouns in _REFERS.get(kind, {}).items():
        if key in _IF_THERE.get(kind, ()):
            continue
        for _, name in texts(table.get(key), ()):
            for noun in nouns:
                yield noun, name
    if kind is Joint and isinstance(hardware := table.get("hardware"), str):
        yield "hardware", hardware


def hardware_notices(document: Document, joint: Steps, names: Declared) -> list[Notice]:
    """A joint's hardware that has the form of an id, where no row has it; all else is a designation."""
    hardware = document.toml.value((*joint, "hardware"))
    if not isinstance(hardware, str) or not ROW_ID.fullmatch(hardware):
        return []
    if hardware in names.of("hardware") or hardware in names.perhaps:
        return []
    return [_unknown(document, (*joint, "hardware"), ("hardware",), names, {})]


def assembly_names(document: Document, names: Declared) -> Names | None:
    """The assembly's names that a document may use: an assembly its own, a job those of the assembly that it is about.

    None where the job's assembly is not among the documents; no names for other files.
    """
    if document.kind is Assembly:
        return names.inside[document.path]
    if document.kind is JobFile:
        wanted = document.toml.value(("job", "assembly"))
        found = names.of("assembly").get(wanted) if isinstance(wanted, str) else None
        return None if found is None else names.inside[found.document.path]
    return {}


def _names_of(noun: str, names: Declared, inside: Names) -> dict[str, Any]:
    return inside.get(noun, {}) if noun in _OF_ASSEMBLY else names.of(noun)


def texts(value: Any, steps: Steps) -> Iterator[tuple[Steps, str]]:
    """Every text in a value that is a text, a list of texts or a list of such lists."""
    if isinstance(value, str):
        yield steps, value
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from texts(item, (*steps, index))


def _unknown(document: Document, steps: Steps, nouns: tuple[str, ...], names: Declared, inside: Names) -> Notice:
    key = next(step for step in reversed(steps) if isinstance(step, str))
    name = str(document.toml.value(steps))
    wanted = " or ".join(nouns)
    code = "assembly-missing" if nouns == ("assembly",) else "unknown-id"
    message = f'`{key}` names "{name}", but there is no {wanted} of that name'
    known = {one: declaration for noun in nouns for one, declaration in _names_of(noun, names, inside).items()}
    hint = _of_another_sort(name, names, inside)
    near = nearest(name, known)
    if not hint and near is not None:
        hint = f"did you mean `{near}`, declared at {known[near].place}?"
    hint = hint or among(name, known)
    return Notice(code, message, document.toml.place(*steps), hint)


def _of_another_sort(name: str, names: Declared, inside: Names) -> str:
    for noun, known in (*inside.items(), *names.everywhere.items()):
        if name in known:
            return f"`{name}` is a {noun}, declared at {known[name].place}"
    return ""
