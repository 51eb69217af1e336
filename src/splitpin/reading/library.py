"""All that the catalogue and the procedures say, gathered by id."""

import re
from collections.abc import Collection, Iterable
from pathlib import Path
from typing import Any

from splitpin.notices import Notice, in_order
from splitpin.reading.document import Document, read_document
from splitpin.reading.findings import findings
from splitpin.reading.folders import CATALOG, PROCEDURES, data_folders, printed, toml_files
from splitpin.records.assembly import Assembly
from splitpin.records.catalogue import CatalogueFile, Handling
from splitpin.records.library import Library
from splitpin.records.procedure import (
    CautionsFile,
    ConditionsFile,
    EmergenciesFile,
    FactsFile,
    JobTemplate,
    LimitsFile,
    ProofsFile,
    WordingsFile,
)

_ASSEMBLIES = "assemblies"


def read_library(
    *, assemblies: Collection[str] | None = None, extra: Path | None = None
) -> tuple[Library, tuple[Notice, ...]]:
    """The bundled catalogue and procedures, and those that stand in the folder `extra`, with what is wrong with them.

    `assemblies` says which assemblies are wanted: None is all of them. Their files alone are read then, so that one
    job does not pay for the whole catalogue. What a broken file declares is not in the library, but is not reported as
    missing either. Cost grows with the lines read.
    """
    documents, notices = read_documents(data_files(assemblies=assemblies, extra=extra))
    library = gather(documents)
    notices += findings(documents, library)
    return library, in_order(notices)


def data_files(*, assemblies: Collection[str] | None = None, extra: Path | None = None) -> list[Path]:
    """The files of the catalogue and the procedures, the bundled ones first."""
    folders = list(data_folders())
    if extra is not None:
        own = [extra / CATALOG, extra / PROCEDURES]
        folders += [folder for folder in own if folder.is_dir() and not _same(folder, folders)]
    files = [file for folder in folders for file in toml_files(folder)]
    if assemblies is None:
        return files
    return [file for file in files if _ASSEMBLIES not in file.parent.parts[-1:] or _names_one_of(file, assemblies)]


def _same(folder: Path, others: Iterable[Path]) -> bool:
    return any(other.is_dir() and folder.samefile(other) for other in others)


def _names_one_of(file: Path, assemblies: Collection[str]) -> bool:
    """Whether the file can declare one of these ids: by its name, or by an id that stands in it."""
    if file.stem in assemblies:
        return True
    if not assemblies:
        return False
    declares = re.compile("|".join(rf"""id\s*=\s*["']{re.escape(name)}["']""" for name in sorted(assemblies)))
    return declares.search(file.read_text("utf-8", "replace")) is not None


def read_documents(files: Iterable[Path], like: Path | None = None) -> tuple[list[Document], list[Notice]]:
    """The files whose kind is known, in their order, and what is wrong with any."""
    documents, notices = [], []
    for file in files:
        document, found = read_document(file, printed(file, like))
        notices += found
        if document is not None:
            documents.append(document)
    return documents, notices


def gather(documents: Iterable[Document]) -> Library:
    """The records of the documents by id, in the order of the ids. Of two with one id the first counts."""
    library = Library()
    handling: list[Handling] = []
    for document in documents:
        match document.record:
            case Assembly() as assembly:
                library.assemblies.setdefault(assembly.assembly.id, assembly)
            case CatalogueFile() as rows:
                _put(library.kinds, rows.kind)
                _put(library.hardware, rows.hardware)
                _put(library.seals, rows.seal)
                _put(library.tools, (*rows.tool, *(tool for family in rows.tool_family for tool in family.tools())))
                _put(library.parts, rows.part)
                _put(library.media, rows.medium)
                _put(library.boundaries, rows.boundary)
                _put(library.licences, rows.licence)
                _put(library.usual_work, rows.usual_work)
                _put(library.time_spreads, rows.time_spread)
                _put(library.site_factors, rows.site_factor)
                _put(library.events, rows.event)
                handling += rows.handling
            case ConditionsFile() as file:
                _put(library.conditions, file.condition)
            case ProofsFile() as file:
                _put(library.proofs, file.proof)
            case CautionsFile() as file:
                _put(library.cautions, file.caution)
            case EmergenciesFile() as file:
                _put(library.emergencies, file.emergency)
            case FactsFile() as file:
                _put(library.facts, file.fact)
            case WordingsFile() as file:
                _put(library.wordings, file.wording)
            case LimitsFile() as file:
                library.limits.setdefault(file.jurisdiction.id, file)
            case JobTemplate() as file:
                library.templates.setdefault(file.template.id, file)
            case _:
                pass  # a job or a firm is no part of the library
    return _sorted(library, handling)


def _put(rows: dict[str, Any], more: Iterable[Any]) -> None:
    for row in more:
        rows.setdefault(row.id, row)


def _sorted(library: Library, handling: list[Handling]) -> Library:
    by_id = {
        name: dict(sorted(getattr(library, name).items()))
        for name in Library.__dataclass_fields__
        if name != "handling"
    }
    return Library(**by_id, handling=tuple(sorted(handling, key=lambda row: row.up_to_kg)))
