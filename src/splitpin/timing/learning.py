"""The pace learnt from visits: by assembly and by kind of task, shrunk together.

For each visit the logarithm of taken over planned is the firm's pace + the assembly's own + the mean of its tasks'
own + chance. All are normal, so what is known after the visits is normal too (conjugate; A. Gelman and others,
Bayesian Data Analysis, 3rd edition, chapters 5 and 14, from memory): what few visits were of is drawn towards the
rest. The spread of the chance is itself learnt, from all visits. By hand: one visit, ratio 1.5, only the firm's pace
with spread 0.2 and chance 0.2: half of ln 1.5.
"""

import math
from collections.abc import Sequence
from statistics import median
from typing import NamedTuple

from splitpin.history.visit import PastVisit
from splitpin.planning.asked.expand import expand
from splitpin.records.library import Visit
from splitpin.timing.conjugate import NormalInverseGamma
from splitpin.timing.pace import Pace, usual_pace

# Standard deviations of the logarithms; no published figure was seen, so all are the project's own (from memory).
FIRM_SD = 0.2  # how far a firm's pace lies from the planning times
ASSEMBLY_SD = 0.15  # how far an assembly's pace lies from the firm's
TASK_SD = 0.15  # likewise a kind of task
CHANCE_WEIGHT = 5  # the usual spread counts like this many visits
LEAST_DEVIATION = 0.05  # so that visits booked to the same minute do not flag one a minute longer; the project's own
OUTLIER = 3.5  # modified z-score, B. Iglewicz and D. Hoaglin, How to Detect and Handle Outliers, 1993, from memory


class Learnt(NamedTuple):
    """A pace with what it is of: the firm, an assembly, a kind of task; `visits` that name it."""

    what: str
    pace: Pace


class Experience:
    """What the visits teach. Making one takes time with the cube of assemblies plus kinds of tasks."""

    def __init__(self, visits: Sequence[PastVisit], usual: Pace) -> None:
        """`usual` is the pace before any visit. Visits without time teach nothing."""
        self.visits = tuple(visit for visit in visits if visit.planned_s > 0 and visit.taken_s > 0)
        self._chance_sd = chance_sd = _chance(self.visits, usual.log_sd)
        assemblies = sorted({visit.assembly for visit in self.visits})
        kinds = sorted({kind for visit in self.visits for kind in kinds_of(visit)})
        self._names = ["firm", *(f"assembly {name}" for name in assemblies), *(f"task {name}" for name in kinds)]
        spreads = [FIRM_SD, *(ASSEMBLY_SD for _ in assemblies), *(TASK_SD for _ in kinds)]
        self._mean, self._covariance = _posterior(
            [self._row(visit.assembly, kinds_of(visit)) for visit in self.visits],
            [log_ratio(visit) + chance_sd**2 / 2 for visit in self.visits],
            [chance_sd**2] * len(self.visits),
            spreads,
        )

    def _row(self, assembly: str, kinds: Sequence[str]) -> list[float]:
        row = [0.0] * len(self._names)
        row[0] = 1.0
        if f"assembly {assembly}" in self._names:
            row[self._names.index(f"assembly {assembly}")] = 1.0
        for kind in kinds:
            if f"task {kind}" in self._names:
                row[self._names.index(f"task {kind}")] += 1 / len(kinds)
        return row

    def pace(self, assembly: str, kinds: Sequence[str]) -> Pace:
        """The pace to expect of the next visit to such an assembly for such tasks, chance included.

        An assembly or a kind that no visit was of brings its whole spread with it.
        """
        row = self._row(assembly, kinds)
        mean = sum(a * b for a, b in zip(row, self._mean, strict=True))
        size = range(len(row))
        variance = sum(row[i] * self._covariance[i][j] * row[j] for i in size for j in size)
        if f"assembly {assembly}" not in self._names:
            variance += ASSEMBLY_SD**2
        unknown = [kind for kind in kinds if f"task {kind}" not in self._names]
        variance += len(unknown) * (TASK_SD / max(len(kinds), 1)) ** 2
        alike = [v for v in self.visits if v.assembly == assembly or set(kinds_of(v)) & set(kinds)]
        return Pace(mean - self._chance_sd**2 / 2, math.sqrt(variance + self._chance_sd**2), len(alike))

    def learnt(self) -> tuple[Learnt, ...]:
        """The firm's pace, then what each assembly and kind of task multiplies it by, without the chance of a visit."""
        rows = []
        for at, name in enumerate(self._names):
            what, _, key = name.partition(" ")
            n = sum(what == "firm" or key == visit.assembly or key in kinds_of(visit) for visit in self.visits)
            rows.append(Learnt(name, Pace(self._mean[at], math.sqrt(self._covariance[at][at]), n)))
        return tuple(rows)

    def outliers(self) -> frozenset[tuple[str, str]]:
        """Job and day of the visits that lie far out: modified z-score above 3.5. They count like the rest."""
        ratios = [log_ratio(visit) for visit in self.visits]
        if len(ratios) < 4:
            return frozenset()
        middle = median(ratios)
        deviation = max(median(abs(ratio - middle) for ratio in ratios), LEAST_DEVIATION)
        return frozenset(
            (visit.job, visit.date.isoformat())
            for visit, ratio in zip(self.visits, ratios, strict=True)
            if 0.6745 * abs(ratio - middle) / deviation > OUTLIER
        )


def learnt_pace(visit: Visit, visits: Sequence[PastVisit]) -> Pace | None:
    """The pace to expect of this visit; None, the usual one, while there is no visit on record."""
    if not visits:
        return None
    kinds = sorted({wish.do for wish in expand(visit).wanted})
    return Experience(visits, usual_pace(visit.library)).pace(visit.assembly.assembly.id, kinds)


def _chance(visits: Sequence[PastVisit], usual_sd: float) -> float:
    """The log spread of one visit's pace: the usual one, put right by the scatter of the visits."""
    shape = CHANCE_WEIGHT / 2 + 1
    known = NormalInverseGamma(0.0, 1.0, shape, usual_sd**2 * (shape - 1))
    return math.sqrt(known.after([log_ratio(visit) for visit in visits]).variance)


def kinds_of(visit: PastVisit) -> tuple[str, ...]:
    """The kinds of task of a visit, each once, sorted."""
    return tuple(sorted({task for _, task in visit.tasks}))


def log_ratio(visit: PastVisit) -> float:
    """The natural logarithm of taken over planned."""
    return math.log(visit.taken_s / visit.planned_s)


def _posterior(
    rows: list[list[float]], values: list[float], variances: list[float], spreads: list[float]
) -> tuple[list[float], list[list[float]]]:
    """Mean and covariance of normal effects with mean 0 and `spreads`, after `values` = `rows` x effects + noise."""
    size = len(spreads)
    precision = [[0.0] * size for _ in range(size)]
    pull = [0.0] * size
    for at, spread in enumerate(spreads):
        precision[at][at] = 1 / spread**2
    for row, value, variance in zip(rows, values, variances, strict=True):
        used = [at for at in range(size) if row[at]]
        for i in used:
            pull[i] += row[i] * value / variance
            for j in used:
                precision[i][j] += row[i] * row[j] / variance
    covariance = _inverse(precision)
    mean = [sum(covariance[i][j] * pull[j] for j in range(size)) for i in range(size)]
    return mean, covariance


def _inverse(matrix: list[list[float]]) -> list[list[float]]:
    """The inverse of a positive definite matrix, by elimination; no pivoting is needed for one."""
    size = len(matrix)
    work = [[*row, *(1.0 if i == j else 0.0 for j in range(size))] for i, row in enumerate(matrix)]
    for i in range(size):
        pivot = work[i][i]
        work[i] = [value / pivot for value in work[i]]
        for j in range(size):
            if j != i and work[j][i]:
                factor = work[j][i]
                work[j] = [a - factor * b for a, b in zip(work[j], work[i], strict=True)]
    return [row[size:] for row in work]
