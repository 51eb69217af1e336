"""Compression joints on copper tube: how far the nut is turned, by the temper of the tube.

22 mm tube of temper R250 by hand: one turn after hand tight, or 40 N m give or take 5 (EN 1254-2, one technical
manual).
"""

from dataclasses import dataclass
from typing import Literal

from splitpin.hardware import tables

Temper = Literal["R220", "R250", "R290"]


@dataclass(frozen=True, slots=True)
class CompressionJoint:
    """Turns after hand tight, and the torque in N m with its tolerance; None where the table has no figure."""

    turns: float | None
    torque_nm: float | None
    tolerance_nm: float | None
    liner: bool  # soft tube wants a liner inside
    source: str


def compression_joint(tube_mm: float, temper: Temper = "R250") -> CompressionJoint:
    """The joint on a copper tube of this outside diameter; raises `KeyError` for a size that is not in the table."""
    row = tables.index("compression_joints", "tube_mm")[(f"{tube_mm:g}",)]
    turns, nm, tolerance = row[f"turns_{temper.lower()}"], row["torque_nm"], row["tolerance_nm"]
    return CompressionJoint(
        turns=float(turns) if turns else None,
        torque_nm=float(nm) if nm else None,
        tolerance_nm=float(tolerance) if tolerance else None,
        liner=temper == "R220",
        source=tables.origin(row),
    )
