"""O-rings by number and by measure."""

import pytest

from splitpin.hardware.fault import Fault
from splitpin.hardware.oring import ORing, measured, o_ring, of_size
from splitpin.notices import Notice, Place
from splitpin.reading.designations import unreadable_seals
from splitpin.records.catalogue import Seal
from splitpin.records.library import Library


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


def test_a_size_is_a_dash_number_or_a_designation() -> None:
    assert of_size("210") == of_size("ISO 3601-1 - 210") == of_size("iso 3601 210") == o_ring("210")


def test_a_size_is_printed_inside_by_section() -> None:
    assert o_ring("210").measure == "18.64 × 3.53 mm"
    assert o_ring("312").measure == "15.24 or 15.54 × 5.33 mm"


@pytest.mark.parametrize("size", ["999", "18 mm", "ISO 3601-1", "ISO 3601-1 - 999", "ISO 4032 - M8", "-", "210 x 3"])
def test_a_size_in_no_table_is_a_fault(size: str) -> None:
    found = of_size(size)
    assert not isinstance(found, ORing)
    assert found
    assert all(isinstance(fault, Fault) and fault.offset <= len(size) for fault in found)


def test_a_seal_with_a_wrong_size_is_noticed_at_its_place() -> None:
    def seal(name: str, size: str | None, line: int) -> Seal:
        return Seal(
            id=name, title=name, policy="renew", size=size, basis="from memory", place=Place("seals.toml", line, 1)
        )

    rows = [seal("ring", "210", 4), seal("other", "999", 9), seal("gasket", None, 14)]
    assert tuple(unreadable_seals(Library(seals={row.id: row for row in rows}))) == (
        Notice(
            "bad-designation",
            "in the size `999` of seal other, at character 1: `999` is no dash number of ISO 3601-1",
            Place("seals.toml", 9, 1),
            "write a dash number such as `210`, or leave the size out",
        ),
    )
