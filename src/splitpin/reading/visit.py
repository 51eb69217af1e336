"""One job with its firm, its assembly and everything these refer to."""

from pathlib import Path

from splitpin.notices import Notice, Place, has_errors, in_order
from splitpin.reading.crossrefs import texts
from splitpin.reading.document import Document, recorded
from splitpin.reading.findings import findings
from splitpin.reading.folders import firm_file
from splitpin.reading.library import data_files, gather, parse_documents, read_documents
from splitpin.reading.needed import needed
from splitpin.records.base import Record
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit


def read_visit(job_path: Path) -> tuple[Visit | None, tuple[Notice, ...]]:
    """The job, its firm (the nearest `firm.toml` in its folder or above), and all that the two refer to.

    The visit is None when an error forbids planning. A folder `catalog/` or `procedures/` beside the firm's file is
    read as well. The job's assembly and template are read by their names, of the rows those that are needed; where
    anything is wrong, the whole catalogue is read, so that the nearest name can be given.
    """
    visit, notices = _read(job_path, whole=False)
    return _read(job_path, whole=True) if has_errors(notices) else (visit, notices)


def _read(job_path: Path, *, whole: bool) -> tuple[Visit | None, tuple[Notice, ...]]:
    documents, notices = read_documents([job_path])
    jobs = [document for document in documents if document.kind is JobFile]
    if not jobs:
        return None, in_order(notices + [_no_job(document) for document in documents if document.kind is not Record])
    firm = firm_file(job_path)
    if firm is None:
        notices += [no_firm(job) for job in jobs]
    else:
        firms, found = read_documents([firm], like=job_path)
        documents += firms
        notices += found
    extra = firm.parent if firm else None
    if whole:
        rows, found = read_documents(data_files(extra=extra), job_path)
    else:
        rows, found = _named(documents, extra, job_path)
    library = gather(rows)
    said = in_order([*notices, *found, *findings([*rows, *documents], library)])
    job, own_firm = (next((d.record for d in documents if d.kind is kind), None) for kind in (JobFile, FirmFile))
    if has_errors(said) or not isinstance(job, JobFile) or not isinstance(own_firm, FirmFile):
        return None, said
    return Visit(job, own_firm, library, job.place), said


def _named(documents: list[Document], extra: Path | None, like: Path) -> tuple[list[Document], list[Notice]]:
    """The job's assembly and its template, and the rows that these, the job and the firm need."""

    def of(key: str) -> set[str]:
        values = [document.toml.value(("job", key)) for document in documents if document.kind is JobFile]
        return {name for value in values for _, name in texts(value, ())}

    files = data_files(assemblies=of("assembly"), templates=of("template"), extra=extra)
    parsed, notices = parse_documents(files, like)
    found = []
    for document in needed(documents, parsed):
        if document.kind is not Record:
            document, wrong = recorded(document)
            notices += wrong
        found.append(document)
    return found, notices


def no_firm(job: Document) -> Notice:
    """What a job is told that belongs to no firm."""
    hint = "write one: [firm] with `id`, `title`, `jurisdiction`, and [times] with `pickup_s`, `move_s`"
    return Notice("file-missing", "there is no firm.toml in this job's folder or above it", Place(job.path), hint)


def _no_job(document: Document) -> Notice:
    return Notice("file-kind", "this file is no job: it has no [job]", Place(document.path, 1, 1))
