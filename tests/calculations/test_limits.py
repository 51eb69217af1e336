"""A result against its limit: whose row counts, on which day, and what is never guessed."""

import datetime
from fractions import Fraction

from splitpin.calculations.limits import NOT_SET, Verdict, judge
from splitpin.calculations.reading import Result
from splitpin.records.procedure import Limit, LimitsFile, LimitsHead

RATIO = Result("ratio", "CO/CO2", "ratio", 5)


def file(name: str, title: str, *rows: Limit) -> LimitsFile:
    return LimitsFile(format=1, jurisdiction=LimitsHead(id=name, title=title), limit=rows)


def row(**fields: object) -> Limit:
    return Limit.model_validate({"id": "x", "unit": "ratio", "source": "a standard", **fields})


def files(general: tuple[Limit, ...], gb: tuple[Limit, ...] = ()) -> dict[str, LimitsFile]:
    return {"gb": file("gb", "Great Britain", *gb), "general": file("general", "General", *general)}


def test_without_a_jurisdiction_the_general_set_comes_first() -> None:
    found = judge("x", RATIO, Fraction(2), files((row(max=1.0),), (row(max=3.0),)))
    assert found == Verdict("x", "at most 1", False, "General", "a standard")


def test_what_the_general_set_leaves_open_comes_from_great_britain() -> None:
    found = judge("x", RATIO, Fraction(2), files((row(note="Read it."),), (row(max=3.0, edition="2nd"),)))
    assert found == Verdict("x", "at most 3", True, "Great Britain", "a standard, 2nd")


def test_a_named_jurisdiction_comes_before_the_general_set() -> None:
    both = files((row(max=1.0),), (row(max=3.0),))
    assert judge("x", RATIO, Fraction(2), both, "gb").passes is True
    assert judge("x", RATIO, Fraction(2), both, "general").passes is False
    assert judge("x", RATIO, Fraction(2), files((row(max=1.0),)), "gb").passes is False


def test_a_named_jurisdiction_that_leaves_it_open_is_not_overruled() -> None:
    found = judge("x", RATIO, Fraction(2), files((row(max=1.0),), (row(note="Read the table."),)), "gb")
    assert found == Verdict("x", NOT_SET, None, "Great Britain", "a standard", "Read the table.")


def test_a_limit_from_memory_is_not_set() -> None:
    found = judge("x", RATIO, Fraction(2), files((row(max=3.0, source=None, basis="from memory"),)))
    assert (found.text, found.passes) == (NOT_SET, None)


def test_a_figure_of_common_practice_says_so_and_an_empty_row_claims_nothing() -> None:
    assert judge("x", RATIO, Fraction(2), files((row(max=3.0, source=None, basis="common practice"),))) == Verdict(
        "x", "at most 3", True, "General", "common practice"
    )
    assert judge("x", RATIO, Fraction(2), files((row(source=None, basis="common practice"),))) == Verdict(
        "x", NOT_SET, None, "General"
    )


def test_a_limit_that_nobody_wrote_is_not_set() -> None:
    assert judge("x", RATIO, Fraction(2), files(())) == Verdict("x", NOT_SET)


def test_the_edition_goes_by_the_day() -> None:
    old = row(max=1.0, valid_until=datetime.date(2026, 9, 30))
    new = row(max=3.0, valid_from=datetime.date(2026, 10, 1))
    both = files((), (old, new))
    for day, passes in (("2026-09-30", False), ("2026-10-01", True)):
        assert judge("x", RATIO, Fraction(2), both, "gb", datetime.date.fromisoformat(day)).passes is passes


def test_without_a_day_no_edition_is_picked_and_no_other_row_stands_in() -> None:
    both = files((row(max=9.0),), (row(max=1.0, valid_until=datetime.date(2026, 9, 30)),))
    found = judge("x", RATIO, Fraction(2), both, "gb")
    assert found == Verdict("x", NOT_SET, note="Its editions change with the day: give the date.")


def test_both_bounds_belong_to_what_passes() -> None:
    both = files((row(min=1.0, max=3.0),))
    assert judge("x", RATIO, Fraction(1), both).text == "at least 1 and at most 3"
    assert [judge("x", RATIO, Fraction(n, 2), both).passes for n in (1, 2, 6, 7)] == [False, True, True, False]


def test_a_bound_is_the_decimal_that_was_written() -> None:
    # 0.1 as a binary float is a little more than a tenth
    both = files((row(max=0.1),))
    assert judge("x", RATIO, Fraction("0.1"), both).passes is True
    assert judge("x", RATIO, Fraction(0.1), both).passes is False


def test_where_rounding_would_hide_the_verdict_more_digits_are_shown() -> None:
    found = judge("x", RATIO, Fraction("0.00400012"), files((row(max=0.004),)))
    assert (found.text, found.passes) == ("at most 0.004; before rounding 0.0040001", False)


def test_another_unit_is_not_compared() -> None:
    found = judge("x", RATIO, Fraction(2), files((row(max=3.0, unit="mbar"),)))
    assert (found.text, found.passes) == ("at most 3 mbar: not compared with ratio", None)


def test_a_limit_can_be_looked_up_without_a_value() -> None:
    assert judge("x", None, None, files((row(max=3.0),))) == Verdict("x", "at most 3", None, "General", "a standard")
