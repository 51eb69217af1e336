"""Designations as people write them, and what is said where they are wrong."""

import pytest

from splitpin.hardware.designation import Designation
from splitpin.hardware.fault import Fault
from splitpin.hardware.parser import parse


def read(text: str) -> Designation:
    found = parse(text)
    assert isinstance(found, Designation), found
    return found


def faults(text: str) -> tuple[Fault, ...]:
    found = parse(text)
    assert isinstance(found, tuple), str(found)
    return found


@pytest.mark.parametrize(
    ("canonical", "spellings"),
    [
        (
            "ISO 4762 - M6 x 25 - 8.8",
            [
                "ISO4762 M6x25-8.8",
                "ISO 4762 - M6 × 25 - 8.8",
                "iso 4762 – m6 X 25 – 8.8",
                "DIN EN ISO 4762 - M6 x 25 - 8,8",
                "BS EN ISO 4762, M6*25, 8.8",
                "ISO 4762 - M6 x 1 x 25 - 8.8",  # the coarse pitch may be said
                "  ISO 4762-M6x25,0-8.8 ",
            ],
        ),
        ("ISO 8765 - M8 x 1 x 40 - 10.9", ["ISO 8765 M8x1x40 10.9"]),
        ("ISO 4032 - M8 - 8", ["ISO 4032-M8-8", "EN ISO 4032 M8 8"]),
        ("DIN 934 - M10 x 1 - 8", ["DIN 934 M10x1-8"]),
        ("ISO 7049 - ST4.2 x 13 - C - H", ["ISO 7049 - ST4,2 x 13 - H - C", "ISO7049 st 4.2x13 C H"]),
        ("ISO 7380-1 - M8 x 16 - 010.9", ["ISO 7380 - M8 x 16 - 010.9", "ISO 7380-1-M8x16-010.9"]),
        ("ISO 228-1 - G 1 1/4", ["ISO 228 - G 1 1/4", "ISO 228-1 G1¼", "ISO 228 G 1.1/4"]),
        ("ISO 228-1 - G 3/4", ["ISO 228 G¾", "ISO 228-1 - G 3 / 4"]),
        ("EN 1254-2 - 22", ["EN 1254-2 22 mm", "BS EN 1254-2 - 22"]),
        ("EN 1254-2 - 15 - R250", ["EN 1254-2 15 r250"]),
        ("ISO 1234 - 3.2 x 22", ["ISO 1234-3.2x22", "ISO 1234 3,2 x 22"]),
        ("DIN 471 - 40 x 1.75", ["DIN 471-40x1.75", "DIN 471 40 x 1,75"]),
        ("ISO 3601-1 - 210", ["ISO 3601 210"]),
        ("IEC 61210 - 6.3 x 0.8", ["IEC 61210 6,3x0,8"]),
        ("ISO 7089 - 8 - 200 HV", ["ISO 7089-M8-200HV", "ISO 7089 8 200 hv"]),
        ("ISO 4762 - M6 x 25 - A2-70", ["ISO 4762 M6x25 a2-70"]),
        ("DIN 965 - M4 x 10 - A2 - H", ["DIN 965-M4x10-A2-H"]),  # the letter is no part of the class
        ("ISO 4762:2004 - M6 x 25", ["ISO 4762:2004 M6x25"]),
        ("ISO 4017/DIN 933 - M10 x 25 - 8.8", ["ISO 4017 / DIN 933 M10x25 8.8"]),
        (
            "ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8 - 8",
            ["ISO 4017 M8x25 8.8+ISO 4032 M8 8", "ISO 4017-M8x25-8.8 +ISO4032-M8-8"],
        ),
    ],
)
def test_differently_spelled_designations_are_equal(canonical: str, spellings: list[str]) -> None:
    meant = read(canonical)
    assert str(meant) == canonical
    for spelling in spellings:
        assert read(spelling) == meant, spelling


def test_an_edition_makes_a_difference() -> None:
    assert read("ISO 4762:2004 - M6 x 25") != read("ISO 4762 - M6 x 25")


@pytest.mark.parametrize(
    ("text", "offset", "length", "message", "hint"),
    [
        ("ISO 4762 - M9 x 25", 11, 2, "M9 is not a preferred size (ISO 261)", "the nearest: M8 and M10"),
        ("ISO 7380-1 - M30 x 60", 13, 3, "M30 is not a size of ISO 7380-1", "the nearest: M16"),
        (
            "ISO 4032 - M8 - 8.8",
            16, 3,
            "`8.8` is a property class of screws, not nuts",
            "the nut that goes with 8.8 screws is of class 8",
        ),
        ("ISO 4017 - M8 x 25 - 8", 21, 1, "`8` is a property class of nuts, not screws", "write 8.8"),
        (
            "ISO 7045 - M4 x 10 - 4.8",
            24, 1,
            "the recess letter is missing: which cross recess is it, H or Z?",
            "add ` - H` (driver PH2) or ` - Z` (driver PZ2)",
        ),
        ("ISO 4762 - M6 x 25 - 8.8 - H", 27, 1, "a hexagon socket screw has no recess letter", "leave it out"),
        (
            "ISO 4672 - M6 x 25",
            0, 8,
            "ISO 4672 is not a standard known here",
            "did you mean ISO 4762 or ISO 4162 or ISO 7046-2?",
        ),
        ("EN 1254-3 - 22", 0, 9, "EN 1254-3 is not a standard known here", "did you mean EN 1254-2?"),
        (
            "six nuts",
            0, 8,
            "this is not a standard designation",
            "it begins with a standard, as in `ISO 4762 - M6 x 25 - 8.8`",
        ),
        ("ISO 4762", 8, 1, "the size of the hexagon socket screw is missing", "write it as in `M8 x 25`"),
        ("ISO 4762 - 6 x 25", 11, 1, "`6` is not a size of ISO 4762", "write it as in `M8 x 25`"),
        (
            "ISO 8765 - M8 x 25 - 8.8",
            11, 2,
            "ISO 8765 is for fine threads: the pitch is missing",
            "write M8 x 1",
        ),
        (
            "ISO 4017 - M8 x 1 x 25",
            16, 1,
            "ISO 4017 has the coarse pitch only",
            "leave the pitch out, or name the standard for fine threads",
        ),
        ("DIN 934 - M8 x 1.1", 15, 3, "1.1 mm is not a pitch of M8", "coarse 1.25; fine 1"),
        ("DIN 934 - M8 x 1 x 25", 19, 2, "a nut has no length", "leave it out"),
        ("DIN 912 - M8 x 1.25 x 1", 22, 1, "no screw M8 is 1 mm long", "give the length in mm"),
        (
            "ISO 1234 - 3.2 x 220",
            17, 3,
            "a 3.2 split pin is not made 220 mm long",
            "lengths run from 14 to 63 mm",
        ),
        ("DIN 471 - 40 x 2", 15, 1, "a 40 ring is not 2 mm thick", "write 40 x 1.75"),
        ("DIN 471 - 40 x 1.75 - 8.8", 22, 3, "`8.8` is a property class of screws: DIN 471 has none", "leave it out"),
        ("IEC 61210 - 4.8 x 1.2", 18, 3, "a 4.8 mm tab is not 1.2 mm thick", "thickness 0.5 or 0.8 mm"),
        ("ISO 3601-1 - 299", 13, 3, "299 is not a dash number", "the series runs from 201 to 284"),
        (
            "ISO 7049 - ST4.2 x 13 - Q - Z",
            24, 1,
            "`Q` is not understood here",
            "after the size may stand: St or a stainless class such as A2-20H; "
            "a point (C, F, R); a recess letter (H, Z)",
        ),
        (
            "ISO 4762 - M6 - 45H",
            16, 3,
            "`45H` is a property class of set screws, not screws",
            "ISO 4762 takes 4.6, 4.8, 5.6, 5.8, 6.8, 8.8, 9.8, 10.9, 12.9 or a stainless class such as A2-70",
        ),
        (
            "ISO 4017/ISO 4071 - M8",
            9, 8,
            "ISO 4071 is not a standard known here",
            "did you mean ISO 4027 or ISO 4017 or ISO 4014?",
        ),
        (
            "ISO 4017/old - M8",
            9, 8,
            "this is not a standard designation",
            "it begins with a standard, as in `ISO 4762 - M6 x 25 - 8.8`",
        ),
        ("ISO 4762 - M6 - 8.8 - 10.9", 22, 4, "`10.9` contradicts `8.8`", "keep one of the two"),
        (
            "ISO 4017/ISO 4032 - M8",
            9, 8,
            "ISO 4032 is another kind of part than ISO 4017",
            "a stroke joins two standards of one part, as in `ISO 4017/DIN 933`",
        ),
        (
            "ISO 4032 - M8 - 8 + ISO 4032 - M8 - 8",
            0, 18,
            "ISO 4032 is not a screw that takes a nut",
            "leave out what follows `+`",
        ),
        (
            "ISO 4017 - M8 x 25 + ISO 4017 - M8",
            20, 14,
            "ISO 4017 is not a nut",
            "after `+` stands the nut, as in `+ ISO 4032 - M8 - 8`",
        ),
        (
            "ISO 4017 - M8 x 25 + ISO 4032 - M10",
            20, 15,
            "a nut M10 does not go on a screw M8",
            "write M8 for both",
        ),
        ("ISO 4017 - M8 + ISO 4032 - M9", 27, 2, "M9 is not a preferred size (ISO 261)", "the nearest: M8 and M10"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said_where_it_stands(text: str, offset: int, length: int, message: str, hint: str) -> None:
    assert faults(text) == (Fault(offset, length, message, hint),)


def test_an_unknown_pipe_thread_lists_those_known() -> None:
    (fault,) = faults("ISO 228 - G 5/4")
    assert fault.message == "G 5/4 is not a size of ISO 228-1"
    assert fault.hint.startswith("known: G 1/16, G 1/8, G 1/4, ")


def test_all_faults_come_at_once_in_their_order() -> None:
    found = faults("ISO 7045 - M9 x 10 - 8 - Q")
    assert [fault.offset for fault in found] == [11, 21, 25]


def test_a_fault_is_marked_under_its_text() -> None:
    text = "ISO 4032 - M8 - 8.8"
    (fault,) = faults(text)
    assert fault.marked(text) == "ISO 4032 - M8 - 8.8\n                ^^^"


@pytest.mark.parametrize(
    "text", ["", " ", "+", "ISO", "ISO 4762 -", "+ ISO 4032 - M8 - 8", "ISO 4762 - M", "G 1", "ISO 228 - G"]
)
def test_half_a_designation_is_a_fault_not_a_crash(text: str) -> None:
    assert all(fault.length >= 1 and fault.offset >= 0 and fault.message and fault.hint for fault in faults(text))
