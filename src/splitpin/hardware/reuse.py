"""Whether a fixing goes back: the rule of its kind, and the measurement where the rule is to measure first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.hardware import tables
from splitpin.hardware.fixing import CLASS_04

if TYPE_CHECKING:
    from splitpin.hardware.designation import Designation
    from splitpin.records.catalogue import Reuse


@dataclass(frozen=True, slots=True)
class ReuseRule:
    """`reusable`, `renew`, `inspect` or `n-times` (then `uses`), and the reason with its source.

    `least_nm` is what a self-locking nut must show, N m, where its size is in the table: measured before it goes back.
    """

    reuse: Reuse
    uses: int | None
    reason: str
    least_nm: float | None = None


def rule(designation: Designation) -> ReuseRule:
    """The rule for the part that a designation names; self-locking nuts carry the limit of their size."""
    row = tables.index("reuse_rules", "rule")[(designation.means.reuse,)]
    reuse: dict[str, Reuse] = {"reusable": "reusable", "renew": "renew", "inspect": "inspect"}
    limit, least = "", None
    if designation.means.reuse.startswith("locknut"):
        measured = tables.index("prevailing_torques", "d_mm").get((f"{designation.diameter:g}",))
        if measured is None:
            limit = "; no limit known at this size: renew"
        else:
            least = float(measured["fifth_off_min_nm"])
            limit = f"; least prevailing torque {measured['fifth_off_min_nm']} N·m ({CLASS_04})"
    return ReuseRule(reuse[row["reuse"]], None, f"{row['reason']}{limit} ({tables.origin(row)})", least)


@dataclass(frozen=True, slots=True)
class Measured:
    """Whether a self-locking nut goes back, the least torque it must show (in the unit of its table), and the table."""

    goes_back: bool
    least: float
    source: str


def locknut_nm(d_mm: float, prevailing_nm: float) -> Measured:
    """A metric self-locking nut: at or above the fifth-removal figure of ISO 2320 (class 04), N m.

    Raises `KeyError` where the table has no row for the diameter.
    """
    row = tables.index("prevailing_torques", "d_mm")[(f"{d_mm:g}",)]
    least = float(row["fifth_off_min_nm"])
    return Measured(prevailing_nm >= least, least, tables.origin(row))


def locknut_in_lb(thread: str, nut: str, prevailing_in_lb: float) -> Measured:
    """An inch nut: `thread` as `1/2` with `nut` `all-metal` or `insert`, or as `1/2-13` with `any`; in-lb.

    The two handbooks behind the table differ; the one used is named. Raises `KeyError` without a row.
    """
    row = tables.index("locknut_limits", "thread", "nut")[thread, nut]
    least = float(row["least_in_lb"])
    return Measured(prevailing_in_lb >= least, least, tables.origin(row))
