"""What a visit may turn out to be: its known tasks, or each suspect of its symptoms, planned to a full repair."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from splitpin.faults.suspects import Cause, likelihoods, symptoms_of, with_task
from splitpin.planning import plan_visit
from splitpin.records.assembly import Suspect
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

MILLION = 1_000_000


@dataclass(frozen=True, slots=True)
class Outcome:
    """One thing that the visit may turn out to be; `weight` in millionths of certainty."""

    title: str
    weight: int
    plan: Plan

    @property
    def obstacle(self) -> str | None:
        """Why no load can finish it; None where one can."""
        if self.plan.stops:
            return "an emergency, or a caller whom nobody asked about one: nothing is planned"
        if self.plan.status != "impossible":
            return None
        if self.plan.refused:
            return self.plan.refused[0].reason
        return next((notice.message for notice in self.plan.notices if notice.severity == "error"), "there is no plan")


def outcomes(
    visit: Visit,
    *,
    counted: Mapping[str, Mapping[Cause, float]] | None = None,
    stop: Callable[[], bool] | None = None,
) -> tuple[Outcome, ...]:
    """What the visit may be, likeliest first; one outcome where no symptom is named.

    `counted` are likelihoods learnt from records, by symptom. Every suspect is planned: time grows with their number.
    """
    symptoms = symptoms_of(visit)
    if not symptoms:
        return (Outcome(visit.job.job.title, MILLION, plan_visit(visit, stop=stop).plan),)
    titles = {component.id: component.title for component in visit.assembly.component}
    rows: dict[Cause, Suspect] = {}
    for symptom in symptoms:
        for row in symptom.suspects:
            rows.setdefault((row.component, row.task), row)
    found = []
    for cause, share in likelihoods(symptoms, counted or {}).items():
        plan = plan_visit(with_task(visit, rows[cause]), stop=stop).plan
        title = f"{cause[1].replace('-', ' ')} the {titles[cause[0]]}"
        found.append(Outcome(title, max(1, round(share * MILLION)), plan))
    return tuple(sorted(found, key=lambda outcome: -outcome.weight))
