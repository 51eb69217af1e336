"""The times of a visit on a terminal."""

from functools import cache

import pytest
from tests.examples import NAMES, example_job

from splitpin.sheets.office.times_text import times_text
from splitpin.timing import Pace
from splitpin.timing.report import TimeReport, time_report


@cache
def report(name: str, **options: object) -> TimeReport:
    return time_report(example_job(name), **options)  # type: ignore[arg-type]


@pytest.mark.parametrize("name", NAMES)
def test_it_fits_a_terminal_and_ends_without_blanks(name: str) -> None:
    text = times_text(report(name))
    for line in text.splitlines():
        assert len(line) <= 80
        assert line == line.rstrip()
    assert "None" not in text
    assert "[" not in text


def test_the_times_of_a_pump_replacement() -> None:
    text = times_text(report("heater-pump"))
    assert text.startswith(
        "SK-2026-0402: Replace the pump head of the combination heater\n"
        "Wall-hung condensing combination heater (wall-hung-combination-heater)\n"
    )
    for heading in (
        "WHERE THE TIME GOES",
        "WHAT IT IS MADE OF",
        "WHY IT TAKES THAT LONG",
        "WHAT MAY GO WRONG",
        "WHAT WOULD SAVE MOST",
    ):
        assert f"\n\n{heading}\n" in text
    assert "WHILE YOU ARE THERE" not in text
    assert "an allowance of 15 % of work time (none on waits)" in " ".join(text.split())
    assert "weathered plant (from memory)" in " ".join(text.split())
    assert "no recorded visit says otherwise yet" in text


def test_one_person_needs_no_line_of_person_hours() -> None:
    assert "Person-hours" not in times_text(report("heater-pump"))
    assert "Person-hours" in times_text(report("heater-rear-vessel"))


def test_booking_later_takes_longer_and_says_its_risk() -> None:
    usual, sure = report("heater-pump", at=80), report("heater-pump", at=97.5)
    assert sure.booking.seconds > usual.booking.seconds
    assert sure.booking.chance_over == pytest.approx(0.025)
    assert "enough in 97.5 of 100 visits" in times_text(sure)


def test_recorded_visits_are_named() -> None:
    assert "The pace rests on 12 recorded visits" in times_text(report("heater-pump", pace=Pace(0.0, 0.1, 12)))
    assert "The pace rests on 1 recorded visit and" in times_text(report("heater-pump", pace=Pace(0.0, 0.1, 1)))


def test_other_tasks_stand_beside_what_they_take_alone() -> None:
    lines = times_text(report("ventilation-fan-and-filters", while_there=True)).splitlines()
    assert "WHILE YOU ARE THERE" in lines
    assert any(line.lstrip().startswith("+") and "instead of" in line for line in lines)
