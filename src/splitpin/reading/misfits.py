"""Proofs that are not made for the plant that brings them."""

from collections.abc import Iterable, Iterator

from splitpin.notices import Notice
from splitpin.reading.declared import Declared
from splitpin.reading.document import Document
from splitpin.reading.located import Steps
from splitpin.records.assembly import Assembly
from splitpin.records.library import Library

Brought = tuple[Steps, str, tuple[str, ...]]
"""Where an assembly brings proofs, what brings them in words, and their ids."""


def misfit_notices(declared: Declared, library: Library, documents: Iterable[Document]) -> Iterator[Notice]:
    """Every proof that an assembly brings though its `only_with` or `never_with` says that it is for other plant.

    What plant it is follows from the media of its circuits. Names that nothing declares bring nothing.
    """
    known = {*declared.of("medium"), *declared.perhaps}
    for document in documents:
        if isinstance(document.record, Assembly):
            assembly = document.record
            media = {circuit.medium for circuit in assembly.circuit}
            for steps, what, names in _brought(assembly, library):
                for name in names:
                    proof = library.proofs.get(name)
                    message = ""
                    if proof is not None and known & {*proof.only_with} and not media & {*proof.only_with}:
                        of = " or ".join(f"`{medium}`" for medium in proof.only_with)
                        message = f"the proof `{name}`, which is for plant with {of}: no circuit here carries that"
                    elif proof is not None and media & {*proof.never_with}:
                        of = " and ".join(f"`{medium}`" for medium in proof.never_with if medium in media)
                        message = f"the proof `{name}`, which is for plant without {of}"
                    if message:
                        place = document.toml.place(*steps)
                        yield Notice("proof-misfit", f"{what} brings {message}", place, "name the proof for this plant")


def _brought(assembly: Assembly, library: Library) -> Iterator[Brought]:
    for index, circuit in enumerate(assembly.circuit):
        what = f"the circuit `{circuit.id}`"
        medium = library.media.get(circuit.medium)
        if circuit.after_remaking is not None:
            yield ("circuit", index, "after_remaking"), what, circuit.after_remaking
        elif medium is not None:
            yield ("circuit", index, "medium"), what, medium.after_remaking
    for index, component in enumerate(assembly.component):
        what = f"the component `{component.id}`"
        for name in component.forms:
            boundary = library.boundaries.get(name)
            yield ("component", index, "forms"), what, boundary.after_remaking if boundary is not None else ()
        yield ("component", index, "proves"), what, component.proves
        for task, work in component.work.items():
            steps: Steps = ("component", index, "work", task, "proofs")
            yield steps, f"the task `{task}` of `{component.id}`", work.proofs
