"""A diagnosis as it is handed on: which suspects, in which sequence to check them, what each repair would take.

The field names and their order are a contract. Times are whole seconds.
"""

from typing import Annotated, Literal

from pydantic import Field

from splitpin.records.base import Row
from splitpin.records.plan import Licence, PlanNotice, PlanPart, PlanTool

WholeSeconds = Annotated[int, Field(ge=0)]


class DiagnosisSymptom(Row):
    """A symptom that the job names."""

    id: str
    title: str


class Reach(Row):
    """One line of what must be made safe or come off before a check, that no earlier check has done."""

    text: str
    seconds: WholeSeconds


class CheckToMake(Row):
    """How a suspect is checked; `opening_s` is what its `reach` takes, `opens` the reach in a few words.

    A `live` check needs the supply on: `supply_s` of its `seconds` go to putting it back and isolating again, where the
    plant was dead by then.
    """

    needs: Literal["out", "exposed", "in-place"]
    steps: tuple[str, ...]
    seconds: WholeSeconds
    live: bool = False
    supply_s: WholeSeconds = 0
    reach: tuple[Reach, ...] = ()
    opens: tuple[str, ...] = ()
    opening_s: WholeSeconds = 0


class Repair(Row):
    """The visit that would cure the suspect, planned whole; impossible when it is closed to us, with the reason."""

    status: Literal["proved", "bounded", "impossible"]
    reason: str | None = None
    hands_on_s: WholeSeconds = 0
    elapsed_s: WholeSeconds = 0
    people: Annotated[int, Field(ge=1)] = 1
    parts: tuple[PlanPart, ...] = ()
    tools: tuple[PlanTool, ...] = ()
    licences: tuple[Licence, ...] = ()


class DiagnosisSuspect(Row):
    """One likely cause, in the sequence of the checks.

    `found_s` is the time from the start at which its check ends, `finish_s` the time at which its repair does.
    """

    n: Annotated[int, Field(ge=1)]
    component: str
    title: str
    task: str
    likelihood: Annotated[float, Field(ge=0, le=1)]
    origin: str
    check: CheckToMake
    found_s: WholeSeconds
    finish_s: WholeSeconds
    repair: Repair
    because: tuple[str, ...] = ()


class Comparison(Row):
    """The expected time to find the fault in two plainer sequences."""

    likeliest_first_s: WholeSeconds
    cheapest_first_s: WholeSeconds


class Diagnosis(Row):
    """The checks that find the fault soonest: proved best, or at most `gap_s` from it."""

    splitpin: str
    job: str
    title: str
    assembly: str
    assembly_title: str
    report: str | None = None
    symptoms: tuple[DiagnosisSymptom, ...] = ()
    status: Literal["proved", "bounded", "impossible"]
    gap_s: WholeSeconds = 0
    expected_find_s: WholeSeconds = 0
    expected_finish_s: WholeSeconds = 0
    visits: Annotated[int, Field(ge=0)] = 0  # own records that the likelihoods rest on
    suspects: tuple[DiagnosisSuspect, ...] = ()
    otherwise: str
    comparison: Comparison | None = None
    notices: tuple[PlanNotice, ...] = ()
