"""One job with its firm, its assembly and everything these refer to."""

from pathlib import Path

from splitpin.notices import Notice, Place, has_errors, in_order
from splitpin.reading.document import Document
from splitpin.reading.findings import findings
from splitpin.reading.folders import firm_file
from splitpin.reading.library import data_files, gather, read_documents
from splitpin.records.base import Record
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit


def read_visit(job_path: Path) -> tuple[Visit | None, tuple[Notice, ...]]:
    """The job, its firm (the nearest `firm.toml` in its folder or above), the catalogue and the procedures.

    The visit is None when an error forbids planning. A folder `catalog/` or `procedures/` beside the firm's file is
    read as well. Of the assemblies only the job's own is read, unless it cannot be found: then all are, so that the
    nearest name can be given.
    """
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
    rows, found = _library(jobs, firm, job_path)
    library = gather(rows)
    said = in_order([*notices, *found, *findings([*rows, *documents], library)])
    job, own_firm = (next((d.record for d in documents if d.kind is kind), None) for kind in (JobFile, FirmFile))
    if has_errors(said) or not isinstance(job, JobFile) or not isinstance(own_firm, FirmFile):
        return None, said
    return Visit(job, own_firm, library, job.place), said


def no_firm(job: Document) -> Notice:
    """What a job is told that belongs to no firm."""
    hint = "write one: [firm] with `id`, `title`, `jurisdiction`, and [times] with `pickup_s`, `move_s`"
    return Notice("file-missing", "there is no firm.toml in this job's folder or above it", Place(job.path), hint)


def _no_job(document: Document) -> Notice:
    return Notice("file-kind", "this file is no job: it has no [job]", Place(document.path, 1, 1))


def _library(jobs: list[Document], firm: Path | None, like: Path) -> tuple[list[Document], list[Notice]]:
    """The job's assembly and all other rows; every assembly, where the job's own cannot be found."""
    wanted = {name for job in jobs if isinstance(name := job.toml.value(("job", "assembly")), str)}
    extra = firm.parent if firm else None
    documents, notices = read_documents(data_files(assemblies=wanted, extra=extra), like)
    ids = {document.toml.value(("assembly", "id")) for document in documents}
    if wanted <= ids:
        return documents, notices
    return read_documents(data_files(extra=extra), like)
