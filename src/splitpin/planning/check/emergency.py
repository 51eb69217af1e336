"""Whether a plan was made although the job speaks of an emergency, or none was made although it does not.

Reading of the definitions. The words of the report, the title, the symptoms' titles, the notes on the site and of the
tasks, without case, accents and apostrophes, are laid in a row, a bar between the texts; a phrase is a pattern over
that row: any of its words, then at most so many others before the next, or none where a hyphen joins them.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.planning.check.fault import Fault
from splitpin.records.plan import Plan

if TYPE_CHECKING:
    from splitpin.records.library import Visit
    from splitpin.records.procedure import Emergency

_BAR = "|"  # no word: nothing reaches over it


def emergencies(visit: Visit) -> frozenset[str]:
    """The ids of the emergencies that the job speaks of."""
    head, site = visit.job.job, visit.job.site
    symptoms = (row.title for row in visit.assembly.symptom if row.id in head.symptoms)
    notes = (task.note for task in visit.job.task)
    texts = [text for text in (head.title, head.report, site.notes, site.access, *symptoms, *notes) if text]
    row = f" {_BAR} ".join(_plain(text) for text in texts)
    return frozenset(
        name
        for name, emergency in visit.library.emergencies.items()
        if any(_pattern(phrase, emergency).search(f" {row} ") for phrase in emergency.phrases)
    )


def emergency_faults(plan: Plan, visit: Visit) -> Iterator[Fault]:
    """A plan made in an emergency that nobody ruled out, or stopped for another one than the job speaks of."""
    spoken = emergencies(visit) if visit.job.job.emergency_ruled_out is None else frozenset()
    if {stop.id for stop in plan.stops} != spoken:
        yield Fault(None, "emergency", f"the job speaks of {sorted(spoken)}, the plan of others")
    if spoken and (plan.steps or plan.status != "impossible"):
        yield Fault(None, "emergency", "planned although the job speaks of an emergency")


def _plain(text: str) -> str:
    bare = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    whole = re.sub("(?<=[^\\W_])['\u2019](?=[^\\W_])", "", bare)
    return " ".join(re.findall(r"[^\W_]+", whole))


def _pattern(phrase: str, emergency: Emergency) -> re.Pattern[str]:
    between = rf" (?:[^ {_BAR}]+ ){{0,{emergency.apart}}}"
    groups = (" ".join(f"(?:{words})" for words in group.split("-")) for group in phrase.split())
    return re.compile(f" {between.join(groups)} ")
