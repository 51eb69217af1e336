"""`splitpin report`."""

from splitpin.cli.actual import visited
from splitpin.cli.arguments import ActualFile, JobFile
from splitpin.cli.document import InLanguage, Out, PaperSize, write_document
from splitpin.cli.saying import answer
from splitpin.sheets.press.language import Words
from splitpin.sheets.service_record.record import service_record


def run(job: JobFile, actual: ActualFile, out: Out, paper: PaperSize = "A4", language: InLanguage = "en") -> None:
    """Write the service record of a visit: readings against limits, times, parts, signatures."""
    done, found = visited(job, actual)
    visit, plan = found.visit, found.plan
    write_document(out, service_record(done, plan, visit.job, visit.firm, paper=paper, t=Words(language)))
    answer(f"{out}: visit of {done.date}")
