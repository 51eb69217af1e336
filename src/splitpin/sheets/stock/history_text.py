"""The visits on record and what they teach, as plain text."""

import math
from collections.abc import Sequence

from splitpin.faults.share import FoundCause, found_causes
from splitpin.history import PastVisit
from splitpin.supply.demand import PartUse, part_uses
from splitpin.supply.keeping import little_known
from splitpin.timing.learning import Experience, Learnt, log_ratio
from splitpin.units import clock, counted


def history_text(visits: Sequence[PastVisit], experience: Experience, ahead: int) -> str:
    """The visits, the paces and causes that they teach, and the parts that are enough for `ahead` more of them."""
    return "\n".join(_lines(visits, experience, ahead)) if visits else "no visits on record yet"


def _lines(visits: Sequence[PastVisit], experience: Experience, ahead: int) -> list[str]:
    far_out, causes, uses = experience.outliers(), found_causes(visits), part_uses(visits)
    return [
        f"{'job':<16} {'day':<10} {'planned':>10} {'taken':>10} {'pace':>6}  assembly",
        *(_visit(visit, (visit.job, visit.date.isoformat()) in far_out) for visit in visits),
        "",
        "What they teach: hands-on time against planned (half of cases within these bounds)",
        *map(_pace, experience.learnt()),
        *(["", "Causes found, of visits with the symptom (9 of 10 times the share is within)"] if causes else []),
        *(_cause(row, ahead) for row in causes),
        *(["", f"Parts used, and how many are enough for {ahead} such visits in 95 of 100 cases"] if uses else []),
        *(_use(row, ahead) for row in uses),
        *(["  Little is known yet: these are guesses, and high ones."] if uses and little_known(uses, ahead) else []),
    ]


def _visit(visit: PastVisit, far_out: bool) -> str:
    pace = f"{math.exp(log_ratio(visit)):.2f}" if visit.planned_s > 0 and visit.taken_s > 0 else "-"
    return (
        f"{visit.job[:16]:<16} {visit.date} {clock(round(visit.planned_s)):>10} {clock(round(visit.taken_s)):>10} "
        f"{pace:>6}  {visit.assembly}{'  lies far out' if far_out else ''}"
    )


def _cause(row: FoundCause, ahead: int) -> str:
    what = f"{row.assembly}, {row.symptom}: {row.cause[1]} {row.cause[0]}"
    low, high = (100 * row.share.at(chance) for chance in (0.05, 0.95))
    again = 1 - row.share.next(0, ahead)
    of_all = f"{row.found} of {row.visits} ({low:.0f} to {high:.0f} %)"
    return f"  {what}: {of_all}; at least once in the next {ahead}: {again:.0%}"


def _use(row: PartUse, ahead: int) -> str:
    of_all = f"{row.units} in {counted(row.visits, 'visit')}"
    return f"  {row.part:<44} {of_all}; carry {row.demand.over(ahead).stock(0.95)}"


def _pace(row: Learnt) -> str:
    low, middle, high = (math.exp(row.pace.log_mean + z * row.pace.log_sd) for z in (-0.6745, 0, 0.6745))
    visits = counted(row.pace.visits, "visit")
    return f"  {row.what:<44} x {middle:.2f} ({low:.2f} to {high:.2f}; {visits})"
