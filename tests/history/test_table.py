"""Visits as a table: back without loss, safe in a spreadsheet, and every fault told with its line."""

import csv
import datetime
import io
import string
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.history.made import visit

from splitpin.history import PastVisit
from splitpin.history.table import NotATable, as_table, of_table

TEXT = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), min_size=1, max_size=30)
ID = st.text(string.ascii_lowercase, min_size=1, max_size=8)
SECONDS = st.floats(0, 9e6)


@given(
    st.lists(
        st.builds(
            visit,
            TEXT,
            date=st.dates(datetime.date(2000, 1, 1), datetime.date(2100, 1, 1)),
            plant=ID,
            planned_s=SECONDS,
            taken_s=SECONDS,
            waiting_s=st.none() | SECONDS,
            phases=st.dictionaries(ID, st.tuples(SECONDS, SECONDS), max_size=3),
            tasks=st.lists(st.tuples(ID, ID), max_size=3).map(tuple),
            notes=st.none() | TEXT,
        ),
        max_size=4,
    )
)
def test_visits_come_back_the_same(visits: list[PastVisit]) -> None:
    assert of_table(as_table(tuple(visits))) == tuple(visits)


@pytest.mark.parametrize("text", ["=1+1", "+44 1632", "-x", "@a", "\tx", "\rx", "'=x", "'"])
def test_no_text_begins_like_a_formula(text: str) -> None:
    """The signs of CWE-1236 and OWASP ASVS 1.2.10."""
    table = as_table((visit(text, notes=text),))
    cells = next(iter(list(csv.DictReader(io.StringIO(table, newline="")))))
    assert cells["job"] == cells["notes"] == "'" + text
    assert of_table(table) == (visit(text, notes=text),)


def test_a_number_is_no_text() -> None:
    cells = next(iter(csv.DictReader(io.StringIO(as_table((visit(),)), newline=""))))
    assert cells["planned_s"] == "3600.0" and cells["waiting_s"] == ""


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("job,date", "job,day", "line 1: the columns must be job,date,assembly"),
        ("3600.0", "soon", "line 2: `planned_s` is soon, which cannot be read"),
        ("3600.0", "-1", "line 2: `planned_s` is -1, which cannot be read"),
        ("3600.0", "nan", "line 2: `planned_s` is nan, which cannot be read"),
        ("2026-03-01", "yesterday", "line 2: `date` is yesterday, which cannot be read"),
        ("3600.0", "3600.0,1", "line 2: 16 cells under 15 columns"),
        ("J-1", "", "line 2: `job` is , which cannot be read"),
        ("[600.0", "[NaN", "line 2: `phases` is "),
        ("[600.0", "[-5", "line 2: `phases` is "),
        ("[600.0", "[" + "1" * 400, "line 2: `phases` is "),
        ("[600.0", "[" * 100_000, "line 2: `phases` is "),
        ("0.004", "Infinity", "line 2: `readings` is "),
        ('"[""no-circulation""]"', '"[""\\ud800""]"', "line 2: `symptoms` is "),
        ('"[[""motor-head"", ""replace""]]"', "{}", "line 2: `tasks` is "),
        ('"[[""motor-head"", ""replace""]]"', '"[""ab""]"', "line 2: `tasks` is "),
    ],
)
def test_a_fault_is_told_with_its_line(old: str, new: str, told: str) -> None:
    table = as_table((visit(),)).replace(old, new, 1)
    with pytest.raises(NotATable) as fault:
        of_table(table)
    assert str(fault.value).startswith(told)


def test_a_visit_of_many_readings_comes_back() -> None:
    """A cell above 131,072 characters, the usual limit of the standard library's reader."""
    long = visit(readings=visit().readings * 3000)
    assert of_table(as_table((long,))) == (long,)
    assert csv.field_size_limit() == 131_072


def test_published_cases_of_formulas_are_made_safe(reference: Path) -> None:
    """`csv_injection_cases.csv`: each input and what stands in the cell, after CWE-1236 and OWASP ASVS 1.2.10."""
    with (reference / "data" / "csv_injection_cases.csv").open(encoding="utf-8", newline="") as file:
        cases = list(csv.DictReader(file))
    assert len(cases) >= 9
    for case in cases:
        table = as_table((visit(case["input"]),))
        assert next(iter(csv.DictReader(io.StringIO(table, newline=""))))["job"] == case["expected_text_cell"]
        assert of_table(table)[0].job == case["input"]
