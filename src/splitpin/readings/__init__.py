"""Calculated readings: from what was read on the plant to the figure that is held against a limit."""

from splitpin.readings.answer import Answer, Line, take
from splitpin.readings.given import Given, Problem
from splitpin.readings.limits import NOT_SET, Standing, Verdict, judge, standing
from splitpin.readings.misused import misused_by_job, misused_by_proofs
from splitpin.readings.reading import OutsideMethod, Reading, Result
from splitpin.readings.register import READINGS

__all__ = [
    "NOT_SET",
    "READINGS",
    "Answer",
    "Given",
    "Line",
    "OutsideMethod",
    "Problem",
    "Reading",
    "Result",
    "Standing",
    "Verdict",
    "judge",
    "misused_by_job",
    "misused_by_proofs",
    "standing",
    "take",
]
