"""All that is wrong with a set of files taken together: whatever any command would refuse is said here."""

from collections.abc import Sequence

from splitpin.notices import Notice, has_errors
from splitpin.reading.agreement import agreement_notices
from splitpin.reading.calculated import misused_by_job, misused_by_proofs
from splitpin.reading.clashes import clash_notices
from splitpin.reading.crossrefs import reference_notices
from splitpin.reading.declared import declared
from splitpin.reading.designations import unreadable, unreadable_seals
from splitpin.reading.document import Document
from splitpin.reading.filed import filed_notices
from splitpin.reading.freedom import freedom_notices
from splitpin.reading.holding import circle_of_carriers, holding_notices
from splitpin.reading.misfits import misfit_notices
from splitpin.reading.plant_points import point_notices
from splitpin.reading.sequence import sequence_notices
from splitpin.reading.tasks import task_notices
from splitpin.records.assembly import Assembly
from splitpin.records.job import JobFile
from splitpin.records.library import Library


def findings(documents: Sequence[Document], library: Library) -> list[Notice]:
    """What is wrong beyond the single value, in no order. `library` holds the records of the sound documents.

    An assembly is asked whether it comes apart only when all its names are known, for it cannot be said before.
    """
    names = declared(documents)
    notices = list(names.notices)
    for document in documents:
        own = reference_notices(document, names) + agreement_notices(document) + task_notices(document, names)
        if isinstance(document.record, Assembly) and not has_errors(own):
            own += _apart(document, document.record)
        notices += [*own, *filed_notices(document)]
        if isinstance(document.record, Assembly):
            notices += unreadable(document.record, library)
        elif isinstance(document.record, JobFile):
            notices += misused_by_job(document.record)
    notices += unreadable_seals(library)
    notices += misused_by_proofs(library)
    notices += sequence_notices(names, library)
    notices += clash_notices(names, library, documents)
    notices += misfit_notices(names, library, documents)
    return notices


def _apart(document: Document, assembly: Assembly) -> list[Notice]:
    circles = circle_of_carriers(document, assembly)
    apart = circles or holding_notices(document, assembly) + freedom_notices(document, assembly)
    return [*apart, *point_notices(document, assembly)]
