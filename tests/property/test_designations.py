"""Laws of designations: what is printed is read back, spelling does not matter, nothing typed breaks the reader."""

from hypothesis import given, settings
from hypothesis import strategies as st

from splitpin.hardware import sizes, tables, thread
from splitpin.hardware.designation import Designation
from splitpin.hardware.fixing import Fixing
from splitpin.hardware.marks import NUT_CLASSES, POINTS, SET_CLASSES, TEMPERS, screw_classes
from splitpin.hardware.parser import parse
from splitpin.hardware.resolving import resolve
from splitpin.hardware.standard import Standard, standards
from splitpin.records.library import Library

LENGTHS = st.integers(5, 200).map(str)
STAINLESS = ("A2-70", "A4-80", "A2")
CLASSES = {
    "screw": (*screw_classes(), *STAINLESS, "CU2", "AL3"),
    "nut": (*NUT_CLASSES, *STAINLESS),
    "set": SET_CLASSES,
    "tapping": ("St", "A2-20H"),
    "washer": ("100 HV", "200 HV", "A2"),
    "tube": TEMPERS,
    "": (),
}
EVERY = sorted({standard.name: standard for standard in standards().values()}.values(), key=lambda one: one.name)


@st.composite
def designations(draw: st.DrawFn, family: list[Standard] = EVERY) -> Designation:
    """Any designation that the tables know, with or without everything that may be left out."""
    standard = draw(st.sampled_from(family))
    size, second = draw(measures(standard))
    return Designation(
        standard=standard.name,
        size=size,
        second=second,
        edition=draw(st.sampled_from(["", "1999", "2022"])),
        property_class=draw(st.sampled_from(["", *CLASSES[standard.classes]])),
        point=draw(st.sampled_from(["", *POINTS])) if standard.thread == "ST" else "",
        recess=draw(st.sampled_from(["H", "Z"])) if standard.drive == "cross" else "",
    )


@st.composite
def measures(draw: st.DrawFn, standard: Standard) -> tuple[str, str]:
    names = sizes.names(standard)
    if names:
        name = draw(st.sampled_from(names))
        return (f"G {name}" if standard.thread == "G" else name), ""
    d = draw(st.sampled_from(sizes.diameters(standard)))
    number = f"{d:g}"
    if standard.thread == "M":
        _, *fine = thread.pitches(d)
        pitches = {"coarse": [""], "fine": fine, "both": ["", *fine]}[standard.pitch]
        pitch = draw(st.sampled_from(pitches))
        length = "" if standard.is_nut else draw(st.just("") | LENGTHS)
        return (f"M{number} x {pitch:g}" if pitch else f"M{number}"), length
    if standard.thread == "ST":
        return f"ST{number}", draw(st.just("") | LENGTHS)
    return number, draw(st.sampled_from(["", *_seconds(standard, number)]))


def _seconds(standard: Standard, number: str) -> list[str]:
    if standard.thread == "pin":
        row = tables.index("split_pins", "hole_mm")[(number,)]
        return [row["length_from_mm"], row["length_to_mm"]]
    if standard.thread == "ring":
        return [tables.index("retaining_rings", "standard", "d_mm")[standard.name, number]["thickness_mm"]]
    if standard.thread == "tab":
        return [row["thickness_mm"] for row in tables.rows("tabs") if row["width_mm"] == number]
    return []


NUTS = [standard for standard in EVERY if standard.is_nut]
SCREWS = [standard for standard in EVERY if standard.thread == "M" and standard.classes == "screw"]


@settings(max_examples=400)
@given(designations())
def test_a_printed_designation_reads_back_to_itself(designation: Designation) -> None:
    assert parse(str(designation)) == designation


@settings(max_examples=150)
@given(designations(SCREWS), designations(NUTS))
def test_a_printed_pair_reads_back_to_itself(screw: Designation, nut: Designation) -> None:
    text = f"{screw} + {nut}"
    found = parse(text)
    if screw.size == nut.size:
        assert isinstance(found, Designation)
        assert (found.alone, found.mate) == (screw, nut)
        assert parse(str(found)) == found
    else:
        assert not isinstance(found, Designation)


@settings(max_examples=200)
@given(
    designations(),
    st.sampled_from(["x", "X", "×", "*", " x ", " × "]),
    st.sampled_from(["-", " - ", "–", " — ", ", ", " "]),
)
def test_spelling_does_not_change_the_meaning(designation: Designation, by: str, gap: str) -> None:
    text = str(designation).replace(" x ", "\0").replace(" - ", "\1").replace("\0", by).replace("\1", gap)
    assert parse(text) == designation
    assert parse(text.lower()) == designation


@settings(max_examples=200)
@given(designations())
def test_every_designation_resolves_to_a_whole_fixing(designation: Designation) -> None:
    found = resolve(str(designation), Library())
    if designation.means.thread == "ring" and designation.diameter > 100:  # beyond every plier known
        assert not isinstance(found, Fixing)
        return
    assert isinstance(found, Fixing)
    assert found.off_s > 0
    assert found.on_s > 0
    assert found.reuse_reason
    assert found.origin
    assert found.tools or designation.means.drive == "hand"
    if found.torque is not None:
        low, high = found.torque.low_nm, found.torque.high_nm
        assert low is not None
        assert high is not None
        assert 0 < low <= found.torque.nm <= high


ALPHABET = st.sampled_from("0123456789 .,x×-–+/:MGSTHZISODENAC½")


@settings(max_examples=300)
@given(st.text(ALPHABET, max_size=40) | designations().map(str), st.integers(0, 40), st.text(ALPHABET, max_size=3))
def test_whatever_is_typed_is_read_or_faulted_inside_the_text(text: str, at: int, more: str) -> None:
    typed = text[:at] + more + text[at:]
    found = parse(typed)
    if isinstance(found, Designation):
        assert parse(str(found)) == found
        return
    assert found
    for fault in found:
        assert 0 <= fault.offset <= len(typed)
        assert fault.length >= 1
        assert fault.offset + fault.length <= len(typed) + 1  # what is missing is marked just behind the end
        assert fault.message
        assert fault.hint
