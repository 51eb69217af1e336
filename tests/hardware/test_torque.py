"""When a torque follows from a designation, from what, and when none does."""

import pytest

from splitpin.hardware.designation import Designation
from splitpin.hardware.given import Torque, given
from splitpin.hardware.parser import parse
from splitpin.hardware.torque import Material, NoTorque, tightening


def meant(text: str) -> Designation:
    found = parse(text)
    assert isinstance(found, Designation), found
    return found


def torque(text: str, into: Material = "unknown", condition: str = "lubricated") -> Torque:
    found = tightening(meant(text), into=into, condition=condition)
    assert isinstance(found, Torque), found
    return found


def why_none(text: str, into: Material = "unknown") -> str:
    found = tightening(meant(text), into=into)
    assert isinstance(found, NoTorque), found
    return found.reason


def test_the_short_formula_by_hand() -> None:
    # M8, 8.8: proof load 21 200 N (ISO 898-1 as printed), three quarters 15 900 N; K 0.15, d 8 mm: 19.08 N m
    found = torque("ISO 4762 - M8 x 25 - 8.8")
    assert (found.nm, found.low_nm, found.high_nm) == (19.0, 15.0, 25.0)
    assert found.basis == (
        "T = K·d·F, K = 0.15 (oiled or greased; 0.12 to 0.20 seen), F = 75 % of the proof load = 15.9 kN "
        "(class 8.8, ISO 898-1); steel threads only; thread material unknown: a given torque wins"
    )


def test_dry_threads_as_the_torque_chart_has_them() -> None:
    # torque chart for ISO 898-1 classes, 75 % of proof load, dry: M8, 8.8: 225 in-lb = 25.4 N m
    assert torque("ISO 4762 - M8 x 25 - 8.8", condition="dry").nm == 25.0


def test_a_weak_head_takes_its_part_only() -> None:
    # one torque chart for socket screws: 26 N m on a countersunk or button head where a cap head takes 41
    assert torque("ISO 10642 - M8 x 20 - 8.8").nm == 12.0  # 0.63 of 19.08
    assert "0.63 of it for this head" in torque("ISO 7380-1 - M8 x 16 - 010.9").basis


def test_stainless_screws_have_their_own_table() -> None:
    # A2-70, M8: 14.5 N m at friction 0.1 and 21.4 at 0.2; two printed tables agree
    found = torque("ISO 4762 - M8 x 25 - A2-70")
    assert (found.nm, found.low_nm, found.high_nm) == (14.0, 14.0, 21.0)


def test_a_nut_makes_the_thread_material_known() -> None:
    found = torque("ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8 - 8")
    assert found.basis.endswith("; thread in steel")
    locking = torque("ISO 4017 - M8 x 25 - 8.8 + ISO 7040 - M8 - 8")
    assert "the prevailing torque of the nut comes on top" in locking.basis


def test_a_compression_joint_has_the_torque_of_its_table() -> None:
    # 22 mm: 40 N m give or take 5; one technical manual
    found = torque("EN 1254-2 - 22")
    assert (found.nm, found.low_nm, found.high_nm) == (40.0, 35.0, 45.0)
    assert found.basis.startswith("given for the joint: EN 1254-2")


def test_the_value_given_for_the_joint_is_taken_as_it_is() -> None:
    assert given(7.5, "plate on the pump") == Torque(7.5, None, None, "given: plate on the pump")
    assert given(7.5, None).basis == "given for this joint"


@pytest.mark.parametrize("into", ["aluminium", "brass", "plastic"])
def test_no_torque_without_a_given_value_in_soft_threads(into: Material) -> None:
    assert why_none("ISO 4762 - M8 x 25 - 8.8", into) == f"threads in {into}: only a given torque counts"
    assert why_none("ISO 4762 - M8 x 25 - A2-70", into) == f"threads in {into}: only a given torque counts"


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("ISO 4762 - M6 x 25", "the property class is not said"),
        ("ISO 4762 - M6 x 25 - CU2", "a screw of class CU2: only a given torque counts"),
        ("ISO 4762 - M6 x 25 - AL3", "a screw of class AL3: only a given torque counts"),
        ("ISO 4762 - M6 x 25 - A2", "no table gives a torque for M6 in A2"),
        ("ISO 4017 - M18 x 40 - 9.8", "class 9.8 is not made at M18 (ISO 898-1)"),
        ("ISO 4032 - M8 - 8", "the torque of a nut follows from its screw: name both, the nut after `+`"),
        ("ISO 7049 - ST4.2 x 13 - Z", "no rule gives a torque for a cross-recess pan head tapping screw"),
        ("ISO 4026 - M8 x 12 - 45H", "no rule gives a torque for a flat-point set screw"),
        ("ISO 228 - G 1", "no rule gives a torque for a union nut"),
        ("EN 1254-2 - 12", "the table gives turns only: 1.25 after hand tight (R250 tube)"),
        ("ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8", "the property class of the nut is not said"),
        (
            "ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8 - 5",
            "a nut of class 5 is too weak for a screw 8.8 (ISO 898-2)",
        ),
        (
            "ISO 4017 - M8 x 25 - 8.8 + ISO 4035 - M8 - 04",
            "a thin nut 04 strips before a screw 8.8 is tight: only a given torque counts",
        ),
        (
            "ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8 - A2-70",
            "a nut A2-70 on a screw 8.8: no rule gives a torque",
        ),
    ],
)
def test_why_no_torque_follows(text: str, reason: str) -> None:
    assert why_none(text) == reason


def test_small_torques_keep_two_figures() -> None:
    # M1.6, 4.6 by hand: As 1.27 mm2 x 225 MPa x 0.75 = 214 N; T = 0.15 x 0.0016 x 214 = 0.051 N m
    assert torque("ISO 1207 - M1.6 x 5 - 4.6").nm == 0.051
