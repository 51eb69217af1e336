"""What goes back, what never does, what is measured first."""

import pytest

from splitpin.hardware.designation import Designation
from splitpin.hardware.parser import parse
from splitpin.hardware.reuse import locknut_in_lb, locknut_nm, rule


@pytest.mark.parametrize(
    ("text", "expected", "authority"),
    [
        ("ISO 1234 - 3.2 x 22", "renew", "TM 55-2840-251-23"),
        ("DIN 93 - 8", "renew", "TM 55-2840-251-23"),
        ("DIN 127 - 8", "renew", "TM 55-2840-251-23"),
        ("ISO 3601-1 - 210", "renew", "training manual 14105"),
        ("EN 1254-2 - 22", "renew", "low authority"),
        ("ISO 7040 - M8 - 8", "inspect", "ISO 2320"),
        ("DIN 471 - 40", "inspect", "para j"),
        ("IEC 61210 - 6.3 x 0.8", "inspect", "IEC 61210"),
        ("ISO 4762 - M6 x 25 - 8.8", "reusable", "TM 9-6115-604-34"),
        ("ISO 7049 - ST4.2 x 13 - Z", "reusable", "from memory"),
    ],
)
def test_the_rule_of_each_kind_names_its_authority(text: str, expected: str, authority: str) -> None:
    found = parse(text)
    assert isinstance(found, Designation)
    assert rule(found).reuse == expected
    assert authority in rule(found).reason


def test_a_self_locking_nut_carries_the_limit_of_its_size() -> None:
    found = parse("ISO 7040 - M8 - 8")
    assert isinstance(found, Designation)
    assert "least prevailing torque 0.6 N·m (fifth removal, class 04" in rule(found).reason


def test_a_size_without_a_limit_says_so() -> None:
    found = parse("DIN 985 - M42")  # the table of ISO 2320 ends at M39
    assert isinstance(found, Designation)
    assert "no limit known at this size: renew" in rule(found).reason


def test_a_metric_nut_is_measured_against_its_fifth_removal() -> None:
    # ISO 2320, class 04, M8: 0.60 N m
    assert locknut_nm(8, 0.60).goes_back
    assert not locknut_nm(8, 0.59).goes_back


def test_the_two_inch_tables_differ_and_are_named() -> None:
    # half an inch: 20 in-lb (all metal) and 15 (insert) in the army manual, 10 in the aviation circular
    army, insert, aviation = (
        locknut_in_lb(*key, 14) for key in (("1/2", "all-metal"), ("1/2", "insert"), ("1/2-13", "any"))
    )
    assert [one.least for one in (army, insert, aviation)] == [20, 15, 10]
    assert [one.goes_back for one in (army, insert, aviation)] == [False, False, True]
    assert "TM 9-6115-604-34" in army.source
    assert "AC 43.13-1B" in aviation.source


def test_a_nut_that_no_table_has_is_not_judged() -> None:
    with pytest.raises(KeyError):
        locknut_nm(9, 1.0)
