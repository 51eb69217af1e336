"""What the tables say of a designation, each line with its source."""

import pytest
from hypothesis import given, settings
from tests.property.test_designations import designations

from splitpin.hardware.designation import Designation
from splitpin.hardware.facts import facts
from splitpin.hardware.parser import parse


def said(text: str) -> dict[str, str]:
    found = parse(text)
    assert isinstance(found, Designation), found
    return {fact.name: fact.value for fact in facts(found)}


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [
        ("DIN 933 - M10 x 25", "DIN 933", "hexagon screw; replaced by ISO 4017"),
        ("ISO 4762 - M6 x 25", "ISO 4762:2004", "hexagon socket screw"),
        ("ISO 4762 - M6 x 25", "pitch", "1 mm, coarse"),
        ("ISO 4762 - M6 x 25", "stress area", "20.1 mm²"),
        ("ISO 8765 - M8 x 1 x 40", "stress area", "39.2 mm²"),  # computed: pi/4 (8 - 0.9382)^2 = 39.17
        ("ISO 4762 - M6 x 25", "hexagon socket", "5 mm"),
        ("ISO 4762 - M6 x 25 - 8.8", "class", "8.8: yield 640 MPa, proof stress 580 MPa"),
        ("ISO 4762 - M20 x 60 - 8.8", "class", "8.8: yield 660 MPa, proof stress 600 MPa"),
        ("ISO 4762 - M6 x 25 - 8.8", "proof load", "11.6 kN"),
        ("ISO 4162 - M12 x 30", "across flats", "15 mm or 16 mm (take both spanners)"),
        ("ISO 7045 - M4 x 10 - Z", "cross recess", "2, type Z"),
        ("ISO 14583 - M4 x 10", "six-lobe socket", "20"),
        ("ISO 1207 - M4 x 10", "slot", "1.2 mm"),
        ("ISO 1580 - M6 x 10", "blade", "8 or 10 mm wide"),
        ("ISO 7049 - ST4.2 x 13 - Z", "tapping thread", "gauge 8, 4.22 mm outside, pitch 1.4 mm"),
        ("ISO 7089 - 8", "washer", "8.4 mm inside, 16 mm outside, 1.6 mm thick"),
        ("ISO 1234 - 3.2 x 22", "castle nut", "M12"),
        ("DIN 472 - 22 x 1", "plier code", "19"),
        ("DIN 471 - 52", "ring", "2 mm thick, groove 49 mm (groove 49 in one table, 49.5 in the other)"),
        ("ISO 228 - G 1", "pipe thread", "11 to the inch, 33.249 mm outside, 30.291 mm core"),
        ("ISO 228 - G 1", "union nut", "about 37 to 38 mm across flats: measure on site"),
        ("EN 1254-2 - 22", "turns after hand tight", "R220 1 with a liner, R250 1, R290 0.75"),
        ("EN 1254-2 - 22 - R290", "turns after hand tight", "R290 0.75"),
        ("EN 1254-2 - 28 - R220", "turns after hand tight", "no figure"),
        ("IEC 61210 - 6.3 x 0.8", "tab", "6.3 × 0.8 mm"),
        (
            "ISO 3601-1 - 312",
            "O-ring",
            "15.24 mm inside, 5.33 mm section, 25.9 mm outside (another table: 15.54 mm inside)",
        ),
        (
            "ISO 7040 - M8",
            "prevailing torque",
            "first assembly at most 6 N·m, first removal at least 0.85 N·m, fifth removal at least 0.6 N·m",
        ),
        (
            # printed for M8, 8.8 in a general table at friction 0.12: 24 N m
            "ISO 4017 - M8 x 25 - 8.8",
            "long formula",
            "22 / 25 / 27 N·m at friction 0.10 / 0.12 / 0.14; preload 19.1 / 18.6 / 18.1 kN; "
            "steel threads, face of a hexagon head",
        ),
        ("ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8 - 8", "nut: across flats", "13 mm"),
    ],
)
def test_the_tables_say(text: str, name: str, value: str) -> None:
    assert said(text)[name] == value


def test_a_class_that_is_not_made_at_a_size_has_no_figures() -> None:
    assert "class" not in said("ISO 4017 - M18 x 40 - 9.8")  # ISO 898-1: 9.8 up to 16 mm


def test_an_edition_that_is_typed_is_the_one_printed() -> None:
    found = parse("ISO 4762:1997 - M6 x 25")
    assert isinstance(found, Designation)
    first = facts(found)[0]
    assert (first.name, first.source) == ("ISO 4762:1997", "edition: as typed")


@settings(max_examples=200)
@given(designations())
def test_every_figure_has_a_source(designation: Designation) -> None:
    head, *rest = facts(designation)
    assert head.name.startswith(designation.standard)
    assert all(fact.value and fact.source for fact in rest)
