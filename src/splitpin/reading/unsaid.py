"""What a law of plans needs to know of a plant, and its file does not say: advice to whoever writes the file."""

from collections.abc import Iterator

from splitpin.notices import Notice
from splitpin.reading.document import Document
from splitpin.reading.located import Steps
from splitpin.records.assembly import Assembly
from splitpin.records.library import Library

_NAMED = 4  # so many things are named in one note, the rest are counted

Gap = tuple[Steps, str]
"""Where a thing stands in the file, and its name."""


def unsaid_notices(document: Document, assembly: Assembly, library: Library) -> Iterator[Notice]:
    """One note for each sort of gap, at the first of its kind. Cost grows with the lines of the assembly."""
    for gaps, what, hint in (
        (
            _circuits_without(assembly),
            "circuits without `feeds` or `drivers`",
            "say `feeds = []` and `drivers = []` where none are",
        ),
        (
            _ways_without_point(assembly),
            "ways to isolate without a point",
            "name each valve, switch and supply",
        ),
        (
            _bare_wheels(assembly),
            "components that rotate with no guard in front",
            'a cover says guards = ["moving-parts"]',
        ),
        (_boards(assembly, library), "components whose settings are entered but not named", "give `holds_settings`"),
        (
            _unmatched(assembly),
            "components with a part and no `must_match`",
            "say what of a new part is compared beforehand",
        ),
    ):
        found = list(gaps)
        if found:
            more = f" and {len(found) - _NAMED} more" if len(found) > _NAMED else ""
            names = ", ".join(f"`{name}`" for _, name in found[:_NAMED])
            yield Notice("not-said", f"{what}: {names}{more}", document.toml.place(*found[0][0]), hint)
    head = document.toml.place("assembly", "id")
    if not assembly.function:
        yield Notice("not-said", "no [[function]] says which modes and safety devices to call", head)
    if assembly.assembly.service is None:
        yield Notice("not-said", "no `service` says what people lose while it is off", head, 'service = "heating"')


def _circuits_without(assembly: Assembly) -> Iterator[Gap]:
    for index, circuit in enumerate(assembly.circuit):
        if circuit.feeds is None or circuit.drivers is None:
            yield ("circuit", index, "id"), circuit.id


def _ways_without_point(assembly: Assembly) -> Iterator[Gap]:
    ways = {point.by for point in assembly.point if point.role in ("isolates", "drains")}
    for index, circuit in enumerate(assembly.circuit):
        for at, way in enumerate(circuit.isolate):
            if way.by not in ways:
                ways.add(way.by)
                yield ("circuit", index, "isolate", at, "by"), way.by


def _bare_wheels(assembly: Assembly) -> Iterator[Gap]:
    covers = {component.id for component in assembly.component if component.guards or component.forms}
    for index, component in enumerate(assembly.component):
        front = {one for way in component.ways for choice in way.behind for one in choice}
        if component.rotates and not front & covers and not component.guards:
            yield ("component", index, "id"), component.id


def _boards(assembly: Assembly, library: Library) -> Iterator[Gap]:
    for index, component in enumerate(assembly.component):
        work = component.work.get("replace")
        proofs = (library.proofs.get(name) for name in (work.proofs if work is not None else ()))
        if not component.holds_settings and any(proof is not None and proof.settings for proof in proofs):
            yield ("component", index, "id"), component.id


def _unmatched(assembly: Assembly) -> Iterator[Gap]:
    for index, component in enumerate(assembly.component):
        if component.part is not None and not component.must_match:
            yield ("component", index, "id"), component.id
