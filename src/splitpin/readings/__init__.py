"""Calculated readings: from what was read on the plant to the figure that is held against a limit."""

from splitpin.readings.answer import Answer, Line, take
from splitpin.readings.given import Given, Problem
from splitpin.readings.limits import NOT_SET, Verdict, judge
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
    "Verdict",
    "judge",
    "take",
]
