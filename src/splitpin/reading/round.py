"""One round with its van, its firm, its jobs, and the stock of van and store."""

import os
from pathlib import Path

from splitpin.notices import Notice, Place, has_errors, in_order
from splitpin.reading.document import Document
from splitpin.reading.findings import findings
from splitpin.reading.folders import firm_file
from splitpin.reading.library import data_files, gather, read_documents
from splitpin.reading.located import Steps
from splitpin.reading.stock import read_stock
from splitpin.reading.visit import no_firm, read_visit
from splitpin.records.base import Record
from splitpin.records.library import Library, Round, Visit
from splitpin.records.round import RoundFile, RoundVisit, Stock, VanFile


def read_round(file: Path) -> tuple[Round | None, tuple[Notice, ...]]:
    """The round, the van, the firm above them, every job as `read_visit` gives it, and the stock.

    None when an error forbids planning. Cost: the catalogue is read once for each job.
    """
    documents, notices = read_documents([file])
    rounds = [document for document in documents if document.kind is RoundFile]
    if not rounds:
        return None, in_order(notices + [_no_round(document) for document in documents if document.kind is not Record])
    (document,) = rounds
    notices += _checked(documents, file)
    if not isinstance(document.record, RoundFile):
        return None, in_order(notices)
    notices += missing_files(document, file)
    path = _named(file, document.record.round.van)
    van, told = read_van(path, file) if path.is_file() else (None, ())
    notices += told
    visits, found = _visits(document.record, file)
    notices += found
    if van is None or has_errors(notices) or not visits:
        return None, in_order(notices)
    firm = visits[0][1].firm
    (lying, found_lying), (stored, found_stored) = _stocks((van, path), firm_file(file), visits[0][1], file)
    notices += [*found_lying, *found_stored]
    if has_errors(notices):
        return None, in_order(notices)
    return Round(document.record, van, firm, visits, lying, stored), in_order(notices)


def _no_round(document: Document) -> Notice:
    return Notice("file-kind", "this file is no round: it has no [round]", Place(document.path, 1, 1))


def _checked(documents: list[Document], file: Path) -> list[Notice]:
    """What is wrong with the round's own names, and that it belongs to no firm."""
    if firm_file(file) is None:
        return [no_firm(document) for document in documents]
    return findings(documents, Library())


def _named(file: Path, name: str) -> Path:
    return Path(os.path.normpath(file.parent / name))


def missing_files(document: Document, file: Path) -> list[Notice]:
    """The van and the jobs that a round names as seen from its own folder and that are not there, and jobs named twice.

    `file` is where the document was read from; other documents name no files.
    """
    read = document.record
    if not isinstance(read, RoundFile):
        return []
    named: list[tuple[str, Steps, str]] = [("van", ("round", "van"), read.round.van)]
    named += [("job", ("visit", index, "job"), row.job) for index, row in enumerate(read.visit)]
    notices = []
    first: dict[Path, Place] = {}
    for key, steps, name in named:
        path, place = _named(file, name), document.toml.place(*steps)
        if not path.is_file():
            hint = "files are named as seen from this file's folder"
            notices.append(Notice("file-missing", f'`{key}` names "{name}", but there is no such file', place, hint))
        elif path in first:
            hint = f"the first time in line {first[path].line}"
            notices.append(Notice("duplicate-id", f'the job "{name}" is visited twice', place, hint))
        first.setdefault(path, place)
    return notices


def read_van(file: Path, like: Path | None = None) -> tuple[VanFile | None, tuple[Notice, ...]]:
    """The van of a file, and what is wrong with it, names of parts and licences too."""
    vans, notices = read_documents([file], like)
    own = [document for document in vans if document.kind is not Record]
    notices += [
        Notice("file-kind", "this file is no van: it has no [van]", Place(one.path, 1, 1))
        for one in own
        if one.kind is not VanFile
    ]
    if not notices:
        firm = firm_file(file)
        rows, _ = read_documents(data_files(assemblies=(), extra=firm.parent if firm else None), like or file)
        notices += findings([*rows, *own], gather(rows))
    records = [one.record for one in own if isinstance(one.record, VanFile)]
    return (records[0] if records and not has_errors(notices) else None), in_order(notices)


def _visits(read: RoundFile, file: Path) -> tuple[tuple[tuple[RoundVisit, Visit], ...], list[Notice]]:
    found: list[tuple[RoundVisit, Visit]] = []
    notices: list[Notice] = []
    for row in read.visit:
        path = _named(file, row.job)
        if path.is_file():
            visit, said = read_visit(path)
            notices += [one for one in said if one not in notices]
            if visit is not None:
                found.append((row, visit))
    return tuple(found), notices


def _stocks(
    van: tuple[VanFile, Path], firm: Path | None, visit: Visit, file: Path
) -> tuple[tuple[tuple[Stock, ...], tuple[Notice, ...]], tuple[tuple[Stock, ...], tuple[Notice, ...]]]:
    """What lies in the van and in the store."""
    head = van[0].van
    supply = visit.firm.supply
    lying = read_stock(_named(van[1], head.stock), visit.library, file) if head.stock else ((), ())
    if firm is None or supply is None or supply.store is None:
        return lying, ((), ())
    return lying, read_stock(_named(firm, supply.store), visit.library, file)
