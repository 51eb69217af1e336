"""Every file that is named, checked, together with what it refers to."""

import os
from collections.abc import Sequence
from pathlib import Path

from splitpin.notices import Notice, Place, has_errors, in_order
from splitpin.reading.document import Document
from splitpin.reading.findings import findings
from splitpin.reading.folders import firm_file, printed, toml_files
from splitpin.reading.library import data_files, gather, read_documents
from splitpin.reading.prices import PRICES, read_prices
from splitpin.reading.round import missing_files
from splitpin.reading.stock import STOCK, read_stock
from splitpin.reading.unsaid import unsaid_notices
from splitpin.reading.visit import no_firm
from splitpin.records.assembly import Assembly
from splitpin.records.job import JobFile
from splitpin.records.library import Library


def check_paths(paths: Sequence[Path]) -> tuple[Notice, ...]:
    """What is wrong with these files and with the `*.toml` files and prices in these folders, sorted, each notice once.

    With no paths: with the whole bundled catalogue and all procedures. Files are taken together with that catalogue,
    with the firm above them (the nearest `firm.toml`) and with the catalogue beside that firm; what is wrong with those
    is said too. Cost: the catalogue is read once for each firm.
    """
    notices: list[Notice] = []
    by_firm: dict[Path | None, list[Path]] = {} if paths else {None: []}
    for path in paths:
        if not path.exists():
            notices.append(Notice("file-missing", "there is no such file or folder", Place(path.as_posix())))
        for file in _files(path):
            by_firm.setdefault(firm_file(file), []).append(file)
    for firm, files in by_firm.items():
        notices += _together(firm, files)
    return in_order(notices)


def _files(path: Path) -> list[Path]:
    if path.is_dir():
        return [*toml_files(path), *sorted(path.rglob(PRICES)), *sorted(path.rglob(f"*{STOCK}"))]
    return [path] if path.exists() else []


def _together(firm: Path | None, files: list[Path]) -> list[Notice]:
    """The files of one firm with the catalogue; a file that is part of the catalogue anyway is read once."""
    catalogue = data_files(extra=firm.parent if firm else None)
    known = {os.path.abspath(file) for file in catalogue}
    named: dict[str, Path] = {os.path.abspath(file): file for file in files}
    own = [file for whole, file in named.items() if whole not in known and not _is_table(file)]
    like = files[0] if files else None
    if firm is not None and os.path.abspath(firm) not in named:
        own.append(firm)
    documents, notices = read_documents([*catalogue, *own], like)
    notices += [no_firm(document) for document in documents if firm is None and document.kind is JobFile]
    library = gather(documents)
    for file in files:
        if file.name == PRICES:
            notices += read_prices(file, library, like)[1]
        elif file.name.endswith(STOCK):
            notices += read_stock(file, library, like)[1]
    by_path = {document.path: document for document in documents}
    for file in own:
        if (document := by_path.get(printed(file, like))) is not None:
            notices += missing_files(document, file)
    notices += findings(documents, library)
    return notices + _advice(documents, library, notices)


def _advice(documents: Sequence[Document], library: Library, notices: Sequence[Notice]) -> list[Notice]:
    """Once nothing is wrong, what the user's own assemblies do not say; the bundled ones are not the user's to mend."""
    if has_errors(notices):
        return []
    bundled = {printed(file) for file in data_files()}
    return [
        notice
        for document in documents
        if isinstance(document.record, Assembly) and document.path not in bundled
        for notice in unsaid_notices(document, document.record, library)
    ]


def _is_table(file: Path) -> bool:
    return file.name == PRICES or file.name.endswith(STOCK)
