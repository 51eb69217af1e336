"""How far a screw is tightened: the value given for the joint, else one of two formulas, else nothing.

Short formula: T = K d F with the nut factor K and F = 75 % of the proof load. M8, 8.8, K = 0.20 by hand: F = 0.75 x
21 200 = 15 900 N, T = 0.20 x 0.008 x 15 900 = 25.4 N m. Long formula (VDI 2230; from memory, held against 81 printed
lines by a test): F = nu Rp A0 / sqrt(1 + 3 [1.5 (d2/d0) (P / (pi d2) + 1.155 mu)]^2), T = F (0.16 P + 0.58 d2 mu + mu
Dkm / 2). No formula speaks for threads in aluminium, brass or plastic: there only a given value counts.
"""

import math
from dataclasses import dataclass
from typing import Literal

from splitpin.hardware import marks, strength, tables
from splitpin.hardware.designation import Designation
from splitpin.hardware.given import Torque
from splitpin.hardware.thread import Thread, metric

Material = Literal["steel", "unknown", "aluminium", "brass", "plastic"]

PROOF_FRACTION = 0.75  # of the proof load: the tightening charts for ISO 898-1 classes
UTILISATION = 0.9  # of the yield: VDI 2230
CONDITION = "steel threads only; thread material unknown: a given torque wins"


@dataclass(frozen=True, slots=True)
class NoTorque:
    """Why no torque follows."""

    reason: str


@dataclass(frozen=True, slots=True)
class Tightening:
    """Preload in N and the torque in N m that makes it."""

    preload_n: float
    torque_nm: float


def by_nut_factor(d_mm: float, k: float, preload_n: float) -> float:
    """T = K d F in N m; diameter in mm, preload in N, K about 0.1 to 0.3, all > 0."""
    return k * d_mm / 1000 * preload_n


def preload_by_nut_factor(d_mm: float, k: float, torque_nm: float) -> float:
    """F = T / (K d) in N: what a torque in N m makes of the preload."""
    return torque_nm / (k * d_mm / 1000)


def by_friction(
    thread: Thread, yield_mpa: float, friction: float, face_mm: float, hole_mm: float, utilisation: float = UTILISATION
) -> Tightening:
    """The long formula: preload and torque at a part of the yield; one friction for thread and head (0.08 to 0.2)."""
    pitch, d2, d3 = thread.pitch_mm, thread.pitch_diameter_mm, thread.core_diameter_mm
    d0 = (d2 + d3) / 2
    twist = 1.5 * d2 / d0 * (pitch / (math.pi * d2) + 1.155 * friction)
    preload = utilisation * yield_mpa * math.pi / 4 * d0**2 / math.sqrt(1 + 3 * twist**2)
    arm_mm = 0.16 * pitch + 0.58 * d2 * friction + friction * (face_mm + hole_mm) / 4
    return Tightening(preload, preload * arm_mm / 1000)


def least_preload_n(preload_n: float, tightening_factor: float) -> float:
    """The least preload to expect: F / alpha; alpha is 1.8 for a torque wrench in a worked example of VDI 2230."""
    return preload_n / tightening_factor


def rounded(nm: float) -> float:
    """Two figures below 10 N m, whole newton-metres from there: nothing here is known better. Our own rule."""
    return float(f"{nm:.2g}") if nm < 10 else float(round(nm))


def tightening(
    designation: Designation, *, into: Material = "unknown", condition: str = "lubricated"
) -> Torque | NoTorque:
    """The torque that follows from a designation, with its tolerance and basis; or why none does.

    `into` is the material of the thread (a screw with its nut is in steel), `condition` a row of the nut factors. The
    friction of an oiled screw (K = 0.15) is the default, because after a repair the lower friction is the safer
    guess: our own rule.
    """
    standard = designation.means
    if standard.drive == "compression":
        return _compression(designation)
    if standard.is_nut:
        return NoTorque("the torque of a nut follows from its screw: name both, the nut after `+`")
    if standard.torque_share is None:
        return NoTorque(f"no rule gives a torque for a {standard.title}")
    if into in ("aluminium", "brass", "plastic"):
        return NoTorque(f"threads in {into}: only a given torque counts")
    name = designation.property_class
    if not name:
        return NoTorque("the property class is not said")
    if marks.NON_FERROUS.fullmatch(name):
        return NoTorque(f"a screw of class {name}: only a given torque counts")
    nut = designation.mate
    if nut is not None:
        weak = _nut_trouble(name, nut.property_class)
        if weak:
            return NoTorque(weak)
        into = "steel"
    if marks.STAINLESS.fullmatch(name):
        return _stainless(designation, into)
    return _steel(designation, into, condition)


def _nut_trouble(screw: str, nut: str) -> str:
    if not nut:
        return "the property class of the nut is not said"
    if screw[0] == "A" or nut[0] in "AC":
        return "" if screw[0] == nut[0] == "A" else f"a nut {nut} on a screw {screw}: no rule gives a torque"
    if nut.startswith("0"):
        return f"a thin nut {nut} strips before a screw {screw} is tight: only a given torque counts"
    weaker = int(nut) < int(float(screw.lstrip("0")))
    return f"a nut of class {nut} is too weak for a screw {screw} (ISO 898-2)" if weaker else ""


def _steel(designation: Designation, into: Material, condition: str) -> Torque | NoTorque:
    thread = metric(designation.diameter, designation.pitch)
    name = designation.property_class
    try:
        preload = PROOF_FRACTION * strength.proof_load_n(thread, name)
    except KeyError:
        return NoTorque(f"class {name} is not made at M{thread.d_mm:g} (ISO 898-1)")
    share = designation.means.torque_share or 0.0
    row = tables.index("nut_factors", "condition")[(condition,)]
    nm, low, high = (
        rounded(share * by_nut_factor(thread.d_mm, float(row[key]), preload)) for key in ("k", "k_low", "k_high")
    )
    head = f", {share:g} of it for this head (one torque chart for socket screws)" if share != 1 else ""
    basis = (
        f"T = K·d·F, K = {row['k']} ({row['title']}; {row['k_low']} to {row['k_high']} seen), "
        f"F = 75 % of the proof load = {preload / 1000:.1f} kN (class {name}, ISO 898-1){head}"
    )
    if designation.mate is not None and designation.mate.means.reuse.startswith("locknut"):
        basis += "; the prevailing torque of the nut comes on top"
    return Torque(nm, low, high, _conditioned(basis, into))


def _stainless(designation: Designation, into: Material) -> Torque | NoTorque:
    family, _, grade = designation.property_class.partition("-")
    row = tables.index("stainless_torques", "d_mm", "strength").get((f"{designation.diameter:g}", grade))
    if row is None or designation.pitch is not None:
        return NoTorque(f"no table gives a torque for {designation.size} in {designation.property_class}")
    share = designation.means.torque_share or 0.0
    low, high = (rounded(share * float(row[key])) for key in ("friction_0_1_nm", "friction_0_2_nm"))
    basis = f"{low:g} N·m at friction 0.1, {high:g} at 0.2: stainless {family}-{grade}, {tables.origin(row)}"
    return Torque(low, low, high, _conditioned(basis, into))


def _conditioned(basis: str, into: Material) -> str:
    return f"{basis}; {CONDITION}" if into == "unknown" else f"{basis}; thread in steel"


def _compression(designation: Designation) -> Torque | NoTorque:
    row = tables.index("compression_joints", "tube_mm")[(designation.size,)]
    if not row["torque_nm"]:
        return NoTorque(f"the table gives turns only: {row['turns_r250']} after hand tight (R250 tube)")
    nm, tolerance = float(row["torque_nm"]), float(row["tolerance_nm"])
    return Torque(nm, nm - tolerance, nm + tolerance, f"given for the joint: {tables.origin(row)}")
