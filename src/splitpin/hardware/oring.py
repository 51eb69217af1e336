"""O-rings by dash number, and the dash number of a measured ring. Outside diameter = inside + 2 x section."""

from dataclasses import dataclass

from splitpin.hardware import tables
from splitpin.hardware.fault import Fault

STANDARD = "ISO 3601-1"
HINT = "write a dash number such as `210`, or leave the size out"


@dataclass(frozen=True, slots=True)
class ORing:
    """Inside diameter and section in mm; `or_inside_mm` where another table gives another inside diameter."""

    dash: str
    inside_mm: float
    section_mm: float
    or_inside_mm: float | None
    source: str

    @property
    def measure(self) -> str:
        """`18.64 × 3.53 mm`: inside diameter by section; both diameters where two tables differ."""
        other = "" if self.or_inside_mm is None else f" or {self.or_inside_mm:g}"
        return f"{self.inside_mm:g}{other} × {self.section_mm:g} mm"

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


def of_size(size: str) -> ORing | tuple[Fault, ...]:
    """The ring of a seal's `size`: a dash number, or a designation such as `ISO 3601-1 - 210`; else what is wrong."""
    from splitpin.hardware.designation import Designation
    from splitpin.hardware.parser import parse  # few seals have a size: a plan starts sooner without

    found = parse(size if " " in size else f"{STANDARD} - {size}")
    if not isinstance(found, Designation):
        return found if " " in size else (Fault(0, len(size), f"`{size}` is no dash number of {STANDARD}", HINT),)
    if found.standard != STANDARD:
        return (Fault(0, len(size), f"{found.standard} is no standard of seals", HINT),)
    return o_ring(found.size)


def measured(inside_mm: float, section_mm: float, within_mm: float = 0.3) -> tuple[ORing, ...]:
    """The rings whose inside diameter and section both lie within so many mm of the measured ones, nearest first.

    Ties go to the lower dash number. Cost: one pass over the table.
    """
    found = [o_ring(row["dash"]) for row in tables.rows("o_rings")]
    off = [(abs(ring.inside_mm - inside_mm), abs(ring.section_mm - section_mm), ring) for ring in found]
    near = [(inside + section, ring.dash, ring) for inside, section, ring in off if max(inside, section) <= within_mm]
    return tuple(ring for _, _, ring in sorted(near, key=lambda item: item[:2]))
