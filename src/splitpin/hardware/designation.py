"""A standard designation taken apart, and what is wrong with one that cannot be."""

from dataclasses import dataclass, replace

from splitpin.hardware.standard import Standard, standards


@dataclass(frozen=True, slots=True, kw_only=True)
class Designation:
    """What a designation says. Two that mean the same are equal however they were spelled.

    `size` is `M8`, `M8 x 1` (only a pitch that is not the coarse one is kept), `ST4.2`, `G 3/4`, or a bare number in
    mm (a dash number for O-rings). `second` is the length in mm of a screw or split pin, the thickness of a ring or
    tab; "" where not said.
    """

    standard: str
    size: str
    second: str = ""
    edition: str = ""
    other: str = ""  # a second standard, where the part may be of either
    property_class: str = ""
    point: str = ""
    recess: str = ""
    mate: "Designation | None" = None  # the nut that goes with a screw

    def __str__(self) -> str:
        """The canonical spelling; it parses back to an equal designation."""
        head = self.standard + (f"/{self.other}" if self.other else "") + (f":{self.edition}" if self.edition else "")
        size = f"{self.size} x {self.second}" if self.second else self.size
        marks = [mark for mark in (self.property_class, self.point, self.recess) if mark]
        own = " - ".join([head, size, *marks])
        return f"{own} + {self.mate}" if self.mate else own

    @property
    def means(self) -> Standard:
        """What the standard stands for."""
        return standards()[self.standard]

    @property
    def diameter(self) -> float:
        """The nominal diameter in mm of a thread, washer, ring, pin or tube; raises `ValueError` for pipe threads."""
        number = self.size.split(" x ")[0].lstrip("MST")
        return float(number)

    @property
    def pitch(self) -> float | None:
        """The pitch in mm of a fine thread; None for the coarse thread, which is not written."""
        _, _, pitch = self.size.partition(" x ")
        return float(pitch) if pitch else None

    @property
    def alone(self) -> "Designation":
        """The same without its nut."""
        return replace(self, mate=None)
