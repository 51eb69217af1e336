"""`splitpin diagnose`."""

from pathlib import Path
from typing import TYPE_CHECKING, cast

from splitpin.cli import exits
from splitpin.cli.budget import budget
from splitpin.cli.document import checked, write_document
from splitpin.cli.office import past_visits
from splitpin.cli.plan import print_plan
from splitpin.cli.planned import as_notices, leave, stopped, visit_of
from splitpin.cli.saying import answer, say
from splitpin.faults.diagnose import diagnose
from splitpin.faults.likelihood import learnt
from splitpin.units import counted

if TYPE_CHECKING:
    from splitpin.sheets.paper import Paper


def run(
    job: Path, *, as_json: bool, out: Path | None, paper: str, language: str, store: Path | None, seconds: float | None
) -> None:
    """Print in which sequence to check the suspects of a job's symptoms, and what each answer leads to."""
    if out is not None:
        checked(out, paper=paper, language=language)
    visit, notices = visit_of(job)
    if (stop_page := stopped(visit, notices)) is not None:
        say(as_notices(stop_page.notices))
        print_plan(stop_page, as_json=as_json, why=False)
        if out is not None:
            from splitpin.sheets.language import Words
            from splitpin.sheets.paper import step_sheet

            page = step_sheet(stop_page, visit.job, visit.firm, paper=cast("Paper", paper), t=Words(language))
            write_document(out, page)
        leave(stop_page)
    with budget(seconds) as stop:
        known = learnt(visit.assembly.symptom, past_visits(job, store), visit.assembly.assembly.id)
        diagnosis = diagnose(visit, counted=known.by_symptom, visits=known.visits, stop=stop, said=notices)
    say(as_notices(diagnosis.notices))
    if out is not None:
        from splitpin.sheets.diagnosis_card import diagnosis_card
        from splitpin.sheets.language import Words

        card = diagnosis_card(diagnosis, visit.job, visit.firm, paper=cast("Paper", paper), t=Words(language))
        write_document(out, card)
        answer(f"{out}: {counted(len(diagnosis.suspects), 'suspect')}, {diagnosis.status}")
    elif as_json:
        answer(diagnosis.model_dump_json(indent=2))
    elif diagnosis.suspects:
        from splitpin.sheets.diagnosis_text import diagnosis_text

        answer(diagnosis_text(diagnosis))
    code = {"proved": exits.FINE, "impossible": exits.ERRORS, "bounded": exits.UNPROVED}[diagnosis.status]
    if code:
        raise SystemExit(code)
