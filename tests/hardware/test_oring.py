"""O-rings by number and by measure."""

import pytest

from splitpin.hardware.oring import measured, o_ring


def test_sections_follow_the_series() -> None:
    # 1.78, 2.62, 3.53, 5.33, 6.99 mm: ISO 3601-1 inch sizes, two open tables agree
    assert [o_ring(dash).section_mm for dash in ("010", "110", "210", "325", "440")] == [1.78, 2.62, 3.53, 5.33, 6.99]


def test_the_outside_is_the_inside_and_twice_the_section() -> None:
    assert o_ring("210").outside_mm == 25.70


def test_a_disputed_ring_carries_both_values() -> None:
    assert (o_ring("312").inside_mm, o_ring("312").or_inside_mm) == (15.24, 15.54)
    assert o_ring("312").source.endswith("(disputed)")


def test_a_measured_ring_finds_its_number() -> None:
    assert measured(18.7, 3.5)[0].dash == "210"
    assert measured(18.7, 9.0) == ()


def test_a_number_that_does_not_exist_is_refused() -> None:
    with pytest.raises(KeyError):
        o_ring("000")
