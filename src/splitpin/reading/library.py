"""All that the catalogue and the procedures say, gathered by id."""

from collections.abc import Callable, Collection, Iterable
from pathlib import Path
from typing import Any

from splitpin.notices import Notice, in_order
from splitpin.reading.document import Document, parse_document, read_document
from splitpin.reading.findings import findings
from splitpin.reading.folders import (
    ASSEMBLIES,
    BUILDS,
    CATALOG,
    PROCEDURES,
    TEMPLATES,
    data_folders,
    printed,
    toml_files,
)
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


def data_files(
    *, assemblies: Collection[str] | None = None, templates: Collection[str] | None = None, extra: Path | None = None
) -> list[Path]:
    """The files of the catalogue and the procedures, the bundled ones first.

    Where `assemblies` or `templates` are given, of these only the files called so; and no builds, which an assembly
    that is read brings itself. A folder of which a name is wanted is not listed, however many files it holds.
    """
    folders = list(data_folders())
    if extra is not None:
        own = [extra / CATALOG, extra / PROCEDURES]
        folders += [folder for folder in own if folder.is_dir() and not _same(folder, folders)]
    wanted = {ASSEMBLIES: assemblies, TEMPLATES: templates, BUILDS: None if assemblies is None else ()}
    named = {name: ids for name, ids in wanted.items() if ids is not None}
    files = []
    for folder in folders:
        files += toml_files(folder, besides=named)
        paths = [folder / name / f"{one}.toml" for name, ids in named.items() for one in sorted(ids)]
        files += [path for path in paths if path.is_file()]
    return files


def _same(folder: Path, others: Iterable[Path]) -> bool:
    return any(other.is_dir() and folder.samefile(other) for other in others)


def read_documents(files: Iterable[Path], like: Path | None = None) -> tuple[list[Document], list[Notice]]:
    """The files whose kind is known, in their order, and what is wrong with any."""
    return _each(read_document, files, like)


def parse_documents(files: Iterable[Path], like: Path | None = None) -> tuple[list[Document], list[Notice]]:
    """The same before any record is made."""
    return _each(parse_document, files, like)


def _each(
    read: Callable[[Path, str], tuple[Document | None, list[Notice]]], files: Iterable[Path], like: Path | None
) -> tuple[list[Document], list[Notice]]:
    documents, notices = [], []
    for file in files:
        document, found = read(file, printed(file, like))
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
