"""One job with its firm, its assembly and everything these refer to."""

from pathlib import Path

from splitpin.notices import Notice, Place, has_errors, in_order
from splitpin.reading.document import Document
from splitpin.reading.findings import findings
from splitpin.reading.folders import firm_file, printed
from splitpin.reading.library import data_files, gather, read_documents
from splitpin.records.job import FirmFile, JobFile
from splitpin.records.library import Visit


def read_visit(job_path: Path) -> tuple[Visit | None, tuple[Notice, ...]]:
    """The job, its firm (the nearest `firm.toml` in its folder or above), the catalogue and the procedures.

    The visit is None when an error forbids planning. A folder `catalog/` or `procedures/` beside the firm's file is
    read as well. Of the assemblies only the job's own is read.
    """
    own, notices = read_documents([job_path])
    firm = firm_file(job_path)
    if firm is None:
        notices.append(
            Notice(
                "file-missing",
                "there is no firm.toml in the job's folder or above it",
                Place(printed(job_path)),
                "the firm's rates of walking and picking up tools are needed to plan",
            )
        )
    else:
        firms, found = read_documents([firm], like=job_path)
        own += firms
        notices += found
    wanted = [str(_assembly(document)) for document in own if document.kind is JobFile]
    documents, found = read_documents(data_files(assemblies=wanted, extra=firm and firm.parent), like=job_path)
    notices += found
    library = gather(documents)
    notices += findings([*documents, *own], library)
    jobs = [document.record for document in own if isinstance(document.record, JobFile)]
    firms_read = [document.record for document in own if isinstance(document.record, FirmFile)]
    sorted_notices = in_order(notices)
    if has_errors(sorted_notices) or not jobs or not firms_read:
        return None, sorted_notices
    return Visit(jobs[0], firms_read[0], library, jobs[0].place), sorted_notices


def _assembly(job: Document) -> object:
    return job.toml.value(("job", "assembly"))
