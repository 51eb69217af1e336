"""How likely each suspect is, from the catalogue's weights and from what visits have found.

The weights of a symptom are a Dirichlet prior; each visit whose cause was found adds one to that cause (conjugate to
the multinomial; A. Gelman and others, Bayesian Data Analysis, 3rd edition, section 3.4, from memory). By hand: weights
0.4, 0.2, 0.2, 0.2 counted as 5 visits, causes found 6, 3, 0 and 1 times: (2 + 6) / 15, 4 / 15, 1 / 15, 2 / 15.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from splitpin.faults.suspects import Cause
from splitpin.history import PastVisit
from splitpin.records.assembly import Symptom

PRIOR_VISITS = 10  # what the catalogue's weights count for; the project's own, no published figure was seen


class Likelihoods(NamedTuple):
    """By symptom, the likelihood of each cause that the catalogue names; and how many visits they rest on."""

    by_symptom: dict[str, dict[Cause, float]]
    visits: int


def learnt(symptoms: Iterable[Symptom], visits: Sequence[PastVisit], assembly: str) -> Likelihoods:
    """The likelihoods of the symptoms of an assembly after the visits whose symptom and cause are on record.

    A cause that the catalogue does not name for the symptom is not counted here; `unnamed` tells of it.
    """
    found = {}
    used: set[tuple[str, str]] = set()
    for symptom in symptoms:
        total = sum(row.likelihood for row in symptom.suspects)
        prior = {(row.component, row.task): PRIOR_VISITS * row.likelihood / total for row in symptom.suspects}
        seen = [visit for visit in visits if visit.assembly == assembly and symptom.id in visit.symptoms]
        counts = dict.fromkeys(prior, 0)
        for visit in seen:
            for cause in visit.found:
                if cause in counts:
                    counts[cause] += 1
                    used.add((visit.job, visit.date.isoformat()))
        found[symptom.id] = dirichlet_means(prior, counts)
    return Likelihoods(found, len(used))


def dirichlet_means(prior: Mapping[Cause, float], counts: Mapping[Cause, int]) -> dict[Cause, float]:
    """The expected shares; they sum to 1. `prior` has the same keys as `counts`, all above 0."""
    total = sum(prior.values()) + sum(counts.values())
    return {cause: (weight + counts[cause]) / total for cause, weight in prior.items()}


def unnamed(symptoms: Iterable[Symptom], visits: Sequence[PastVisit], assembly: str) -> tuple[tuple[str, Cause], ...]:
    """Causes that visits found for a symptom and that the catalogue does not name for it, each once, sorted."""
    named = {symptom.id: {(row.component, row.task) for row in symptom.suspects} for symptom in symptoms}
    return tuple(
        sorted(
            {
                (symptom, cause)
                for visit in visits
                if visit.assembly == assembly
                for symptom in visit.symptoms
                if symptom in named
                for cause in visit.found
                if cause not in named[symptom]
            }
        )
    )
