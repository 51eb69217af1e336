"""What a steel screw stands: its property class and proof load (ISO 898-1).

M10, class 8.8, by hand: As = 58.0 mm2, Sp = 580 MPa (up to 16 mm), so F = 33.6 kN; the standard prints 33.7 kN.
"""

from dataclasses import dataclass

from splitpin.hardware import tables
from splitpin.hardware.thread import Thread, pitches


@dataclass(frozen=True, slots=True)
class PropertyClass:
    """Least yield and proof stress of a class at one diameter, MPa, and where they come from."""

    name: str
    yield_mpa: float
    proof_mpa: float
    source: str


def property_class(name: str, d_mm: float) -> PropertyClass:
    """The figures of a class (`8.8`; `08.8` for a weak head has the same shank) at a diameter.

    Raises `KeyError` where the class is none of ISO 898-1 or is not made at that diameter.
    """
    plain = name.lstrip("0")
    for row in tables.rows("property_classes"):
        over, up_to = float(row["over_mm"] or 0), float(row["up_to_mm"] or "inf")
        if row["class"] == plain and over < d_mm <= up_to:
            return PropertyClass(plain, float(row["yield_mpa"]), float(row["proof_mpa"]), tables.origin(row))
    raise KeyError((name, d_mm))


def proof_load_n(thread: Thread, name: str) -> float:
    """Proof load in N: the printed one of a coarse thread up to M27, else As x Sp.

    Raises `KeyError` as `property_class` does.
    """
    strength = property_class(name, thread.d_mm)
    row = tables.index("proof_loads", "d_mm").get((f"{thread.d_mm:g}",))
    if row is not None and row[strength.name] and thread.pitch_mm == pitches(thread.d_mm)[0]:
        return float(row[strength.name])
    return thread.stress_area_mm2 * strength.proof_mpa
