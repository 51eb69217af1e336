"""ISO metric screw threads and parallel pipe threads, by formula.

M8 coarse by hand: P = 1.25, so As = pi/4 (8 - 0.9382 x 1.25)^2 = 36.6 mm2, as ISO 898-1 prints.
"""

import math
from dataclasses import dataclass
from functools import cache

from splitpin.hardware import tables

PIPE_DEPTH = 0.640327  # depth of a 55 degree thread over its pitch, ISO 228-1
INCH_MM = 25.4


@dataclass(frozen=True, slots=True)
class Thread:
    """A metric thread: nominal diameter and pitch in mm (both > 0)."""

    d_mm: float
    pitch_mm: float

    @property
    def pitch_diameter_mm(self) -> float:
        """d2 = d - 0.649519 P (ISO 724)."""
        return self.d_mm - 0.649519 * self.pitch_mm

    @property
    def core_diameter_mm(self) -> float:
        """d3 = d - 1.226869 P (ISO 724)."""
        return self.d_mm - 1.226869 * self.pitch_mm

    @property
    def stress_area_mm2(self) -> float:
        """As = pi/4 (d - 0.9382 P)^2 (ISO 898-1), not rounded."""
        return math.pi / 4 * (self.d_mm - 0.9382 * self.pitch_mm) ** 2


@cache
def pitches(d_mm: float) -> tuple[float, ...]:
    """The pitches of a diameter, coarse first; none where the diameter is not one of ISO 261."""
    found = [row for row in tables.rows("threads") if float(row["d_mm"]) == d_mm]
    return tuple(float(row["pitch_mm"]) for row in sorted(found, key=lambda row: row["series"] != "coarse"))


@cache
def diameters() -> tuple[float, ...]:
    """The diameters of the table, rising."""
    return tuple(sorted({float(row["d_mm"]) for row in tables.rows("threads")}))


def metric(d_mm: float, pitch_mm: float | None = None) -> Thread:
    """The thread of this diameter, coarse unless a pitch is given; raises `KeyError` for a size not in the table."""
    known = pitches(d_mm)
    if not known or (pitch_mm is not None and pitch_mm not in known):
        raise KeyError((d_mm, pitch_mm))
    return Thread(d_mm, pitch_mm or known[0])


def pipe_minor_mm(major_mm: float, tpi: float) -> float:
    """Minor diameter of a parallel pipe thread: major - 2 x 0.640327 x 25.4 / TPI (ISO 228-1)."""
    return major_mm - 2 * PIPE_DEPTH * INCH_MM / tpi
