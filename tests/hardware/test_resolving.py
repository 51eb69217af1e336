"""Hardware resolved, from a row or from a designation; and everything the catalogue's assemblies use."""

import time

import pytest

from splitpin.hardware.fault import Fault
from splitpin.hardware.fixing import Fixing
from splitpin.hardware.resolving import resolve
from splitpin.hardware.standard import standards
from splitpin.notices import Notice, Place
from splitpin.reading.designations import unreadable
from splitpin.reading.library import read_library
from splitpin.records.assembly import Assembly, AssemblyHead, Component, Joint
from splitpin.records.catalogue import Hardware, Part, Tool
from splitpin.records.library import Library


@pytest.fixture(scope="module")
def library() -> Library:
    found, _ = read_library()
    return found


def fixing(text: str, library: Library | None = None) -> Fixing:
    found = resolve(text, library or Library())
    assert isinstance(found, Fixing), found
    return found


ROW = Hardware(
    id="hand-clip",
    title="spring clip",
    kind="catch",
    off_s=4,
    on_s=6,
    log_spread=0.3,
    reuse="renew",
    part="clip",
    source="time study",
)


def test_a_row_is_taken_as_it_stands() -> None:
    found = fixing("hand-clip", Library(hardware={"hand-clip": ROW}, parts={"clip": Part(id="clip", title="new clip")}))
    assert (found.title, found.plural, found.kind, found.tools) == ("spring clip", "spring clips", "catch", ())
    assert (found.off_s, found.on_s, found.reuse, found.part, found.part_title) == (4, 6, "renew", "clip", "new clip")
    assert found.reuse_reason == "a new one at every assembly (time study)"
    assert found.torque is None


def test_a_row_that_is_not_there_brings_its_nearest() -> None:
    assert resolve("hand-clp", Library(hardware={"hand-clip": ROW})) == (
        Fault(0, 8, "`hand-clp` is not a row of hardware", "did you mean `hand-clip`?"),
    )
    assert resolve("glue", Library(hardware={"hand-clip": ROW})) == (
        Fault(0, 4, "`glue` is not a row of hardware", "name a [[hardware]] row or a standard designation"),
    )


@pytest.mark.parametrize(
    ("text", "title", "plural", "kind"),
    [
        ("ISO4762 M6x25-8.8", "hexagon socket screw M6 × 25", "hexagon socket screws M6 × 25", "screw"),
        ("ISO 4014 - M8 x 1.25 x 60", "hexagon bolt M8 × 60", "hexagon bolts M8 × 60", "bolt"),
        ("ISO 8765 - M8 x 1 x 60", "hexagon bolt M8 × 1 × 60", "hexagon bolts M8 × 1 × 60", "bolt"),
        ("ISO 4032 - M8 - 8", "hexagon nut M8", "hexagon nuts M8", "nut"),
        ("ISO 228 - G 3/4", "union nut G 3/4", "union nuts G 3/4", "union"),
        ("EN 1254-2 - 22", "compression joint 22 mm", "compression joints 22 mm", "compression"),
        ("DIN 471 - 40", "external retaining ring 40 mm", "external retaining rings 40 mm", "ring"),
        (
            "ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8 - 8",
            "hexagon screw M8 × 25 with nut",
            "hexagon screws M8 × 25 with nuts",
            "screw",
        ),
    ],
)
def test_titles_read_on_after_a_number(text: str, title: str, plural: str, kind: str) -> None:
    found = fixing(text)
    assert (found.id, found.title, found.plural, found.kind) == (text, title, plural, kind)


def test_what_never_goes_back_is_a_part_with_a_reason() -> None:
    pin = fixing("ISO 1234 - 3.2 x 22")
    assert (pin.reuse, pin.part, pin.part_title) == ("renew", "iso-1234-3-2-x-22", "split pin 3.2 × 22")
    assert "never straightened" in pin.reuse_reason
    joint = fixing("EN 1254-2 - 22")
    assert (joint.part, joint.part_title) == ("olive-22", "olive 22 mm")


def test_a_screw_with_a_self_locking_nut_goes_by_the_nut() -> None:
    found = fixing("ISO 4017 - M8 x 25 - 8.8 + ISO 7040 - M8 - 8")
    assert (found.reuse, found.part_title) == ("inspect", "self-locking nut M8")


def test_only_tools_of_the_catalogue_are_named() -> None:
    spanner = Tool(id="spanner-13", title="spanner 13 mm")
    found = fixing("ISO 4032 - M8 - 8", Library(tools={"spanner-13": spanner}))
    assert found.tools == (("spanner-13",),)
    assert resolve("ISO 4032 - M10 - 8", Library(tools={"spanner-13": spanner})) == (
        Fault(0, 18, "the catalogue has no tool for this: it takes socket-16 or spanner-16", "add it to tools.toml"),
    )


def test_a_ring_that_no_pliers_reach_is_a_fault() -> None:
    assert resolve("DIN 471 - 120 x 4", Library()) == (
        Fault(0, 17, "no external circlip pliers known for 120 mm", "name a [[hardware]] row with its own tools"),
    )


def test_a_wrong_designation_brings_its_faults() -> None:
    found = resolve("ISO 4762 - M9 x 25", Library())
    assert found == (Fault(11, 2, "M9 is not a preferred size (ISO 261)", "the nearest: M8 and M10"),)


def test_a_joint_that_cannot_be_read_is_noticed_at_its_place() -> None:
    def joint(name: str, hardware: str, line: int) -> Joint:
        where = Place("set.toml", line, 1)
        return Joint(id=name, between=("lid", "frame"), hardware=hardware, position="front", place=where)

    assembly = Assembly(
        format=1,
        assembly=AssemblyHead(id="set", title="set", positions=("front",)),
        component=(Component(id="lid", title="lid", role="cover", position="front"),),
        joint=(
            joint("nuts", "ISO 4032 - M8 - 8.8", 20),
            joint("clips", "hand-clip", 30),
            joint("pins", "ISO 1234 - 2", 40),
        ),
    )
    assert tuple(unreadable(assembly, Library(hardware={"hand-clip": ROW}))) == (
        Notice(
            "bad-designation",
            "in `ISO 4032 - M8 - 8.8` of joint nuts, at character 17: `8.8` is a property class of screws, not nuts",
            Place("set.toml", 20, 1),
            "the nut that goes with 8.8 screws is of class 8",
        ),
    )


def test_every_hardware_in_use_yields_tool_times_rule_and_source(library: Library) -> None:
    used = {joint.hardware for assembly in library.assemblies.values() for joint in assembly.joint}
    assert len(used) >= 40
    by_hand = set()
    for text in sorted(used):
        found = resolve(text, library)
        assert isinstance(found, Fixing), (text, found)
        assert found.kind in library.kinds, text
        assert found.off_s > 0, text
        assert found.on_s > 0, text
        assert found.log_spread > 0, text
        assert found.reuse in ("reusable", "renew", "inspect", "n-times"), text
        assert found.reuse_reason.endswith(")"), text  # the authority, in brackets
        assert found.origin, text
        assert all(tool in library.tools for choice in found.tools for tool in choice), text
        if not found.tools:
            by_hand.add(found.kind)
    wants_a_tool = {
        "bolt",
        "compression",
        "earth",
        "flange",
        "gland",
        "hose-clip",
        "pin",
        "tab",
        "threaded-joint",
        "tie",
        "union",
    }
    assert by_hand & wants_a_tool == set()
    assert by_hand  # plugs, hooks, push-fits


def test_every_row_of_hardware_yields_times_rule_and_source(library: Library) -> None:
    assert library.hardware
    for name in library.hardware:
        found = fixing(name, library)
        assert found.kind in library.kinds
        assert found.off_s > 0 and found.on_s > 0, name
        assert found.reuse_reason.endswith(f"({found.origin})"), name
        assert found.origin
        assert all(tool in library.tools for choice in found.tools for tool in choice), name


THIRTY = [
    *(f"ISO 4762 - M{d} x 25 - 8.8" for d in (3, 4, 5, 6, 8, 10, 12)),
    *(f"ISO 4017 - M{d} x 25 - 8.8" for d in (5, 6, 8, 10, 12)),
    *(f"ISO 7045 - M{d} x 12 - 4.8 - Z" for d in (3, 4, 5, 6)),
    *(f"ISO 7049 - ST{d} x 13 - C - Z" for d in (3.5, 4.2, 4.8)),
    *(f"ISO 228 - G {size}" for size in ("1/2", "3/4", "1")),
    *(f"EN 1254-2 - {tube}" for tube in (15, 22, 28)),
    "DIN 471 - 40",
    "ISO 1234 - 3.2 x 22",
    "ISO 7040 - M8 - 8",
    "ISO 14583 - M4 x 10",
    "ISO 1207 - M4 x 10",
]


@pytest.mark.benchmark
def test_thirty_designations_resolve_within_ten_milliseconds(library: Library) -> None:
    assert len(set(THIRTY)) == 30
    begun = time.perf_counter()
    found = [resolve(text, library) for text in THIRTY]
    assert time.perf_counter() - begun < 0.010
    assert all(isinstance(one, Fixing) for one in found)


def test_every_standard_is_of_a_kind_of_the_catalogue(library: Library) -> None:
    assert {standard.kind for standard in standards().values()} <= set(library.kinds)
