"""A tightening torque, and the one that is given for a joint."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Torque:
    """A tightening torque in N m, its tolerance where one is known, and in `basis` where it comes from."""

    nm: float
    low_nm: float | None
    high_nm: float | None
    basis: str


def given(nm: float, source: str | None) -> Torque:
    """The value given for a joint: it wins over every formula."""
    return Torque(nm, None, None, f"given: {source}" if source else "given for this joint")
