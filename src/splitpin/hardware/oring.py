"""O-rings by dash number, and the dash number of a measured ring. Outside diameter = inside + 2 x section."""

from dataclasses import dataclass

from splitpin.hardware import tables


@dataclass(frozen=True, slots=True)
class ORing:
    """Inside diameter and section in mm; `or_inside_mm` where another table gives another inside diameter."""

    dash: str
    inside_mm: float
    section_mm: float
    or_inside_mm: float | None
    source: str

    @property
    def outside_mm(self) -> float:
        """Inside diameter and twice the section, to the hundredth as the table."""
        return round(self.inside_mm + 2 * self.section_mm, 2)


def o_ring(dash: str) -> ORing:
    """The ring of a dash number (`010`, `210`); raises `KeyError` for a number that is not in the table."""
    row = tables.index("o_rings", "dash")[(dash,)]
    other = row["or_inside_mm"]
    return ORing(
        dash=dash,
        inside_mm=float(row["inside_mm"]),
        section_mm=float(row["section_mm"]),
        or_inside_mm=float(other) if other else None,
        source=tables.origin(row),
    )


def measured(inside_mm: float, section_mm: float, within_mm: float = 0.3) -> tuple[ORing, ...]:
    """The rings whose inside diameter and section both lie within so many mm of the measured ones, nearest first.

    Ties go to the lower dash number. Cost: one pass over the table.
    """
    found = [o_ring(row["dash"]) for row in tables.rows("o_rings")]
    off = [(abs(ring.inside_mm - inside_mm), abs(ring.section_mm - section_mm), ring) for ring in found]
    near = [(inside + section, ring.dash, ring) for inside, section, ring in off if max(inside, section) <= within_mm]
    return tuple(ring for _, _, ring in sorted(near, key=lambda item: item[:2]))
