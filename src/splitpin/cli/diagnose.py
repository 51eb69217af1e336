"""`splitpin diagnose`."""

from splitpin.cli.arguments import AsJson, JobFile, Limit, StoreFile
from splitpin.cli.budget import budget
from splitpin.cli.document import InLanguage, MaybeOut, PaperSize, write_document
from splitpin.cli.exits import leave
from splitpin.cli.office import past_visits
from splitpin.cli.planned import as_notices, print_plan, visit_of
from splitpin.cli.saying import answer, say
from splitpin.faults.diagnose import diagnose
from splitpin.faults.likelihood import learnt
from splitpin.planning import plan_visit, stops_for_emergency
from splitpin.sheets.office.diagnosis import diagnosis_document
from splitpin.sheets.press.language import Words
from splitpin.sheets.press.page import page
from splitpin.sheets.press.terminal import text
from splitpin.sheets.step_sheet.sheet import step_sheet
from splitpin.units import counted


def run(
    job: JobFile,
    as_json: AsJson = False,
    out: MaybeOut = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    store: StoreFile = None,
    seconds: Limit = None,
) -> None:
    """Tell in which sequence to check the suspects of a job's symptoms, and what each answer leads to."""
    visit, notices = visit_of(job)
    t = Words(language)
    if stops_for_emergency(visit):
        stop_page = plan_visit(visit, said=notices).plan
        say(as_notices(stop_page.notices))
        print_plan(stop_page, as_json=as_json)
        if out is not None:
            write_document(out, step_sheet(stop_page, visit.job, visit.firm, paper=paper, t=t))
        leave(stop_page.status)
    with budget(seconds) as stop:
        known = learnt(visit.assembly.symptom, past_visits(job, store), visit.assembly.assembly.id)
        diagnosis = diagnose(visit, counted=known.by_symptom, visits=known.visits, stop=stop, said=notices)
    say(as_notices(diagnosis.notices))
    told = diagnosis_document(diagnosis, visit.job, visit.firm, t)
    if out is not None:
        write_document(out, page(told, paper=paper, t=t))
        answer(f"{out}: {counted(len(diagnosis.suspects), 'suspect')}, {diagnosis.status}")
    elif as_json:
        answer(diagnosis.model_dump_json(indent=2))
    elif diagnosis.suspects:
        answer(text(told))
    leave(diagnosis.status)
