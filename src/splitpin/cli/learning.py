"""The pace that a firm's own visits teach, for the commands that estimate."""

from pathlib import Path

from splitpin.cli.office import past_visits
from splitpin.planning.asked.expand import expand
from splitpin.records.library import Visit
from splitpin.timing.learning import Experience
from splitpin.timing.pace import Pace, usual_pace


def learnt_pace(job: Path, visit: Visit, store: Path | None) -> Pace | None:
    """The pace for this visit; None, the usual one, while there is no visit on record."""
    visits = past_visits(job, store)
    if not visits:
        return None
    kinds = sorted({wish.do for wish in expand(visit).wanted})
    return Experience(visits, usual_pace(visit.library)).pace(visit.assembly.assembly.id, kinds)
