"""What planning wants to know of a screw, a nut, a clip."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.notices import NOWHERE, Place

if TYPE_CHECKING:
    from splitpin.hardware.given import Torque
    from splitpin.hardware.tools import Needs
    from splitpin.records.catalogue import Reuse

CLASS_04 = "fifth removal, class 04: for other classes read ISO 2320"  # what the table of least torques holds for


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """What planning wants to know of one piece. Whole seconds a piece; `kind` is the id of a `[[kind]]` row."""

    id: str  # as typed
    title: str
    plural: str
    kind: str
    tools: Needs
    off_s: int
    on_s: int
    log_spread: float
    reuse: Reuse
    uses: int | None
    reuse_reason: str
    part: str | None  # what goes on the pick list when it is renewed; perhaps not a row of the catalogue
    part_title: str | None
    consumables: tuple[str, ...]
    torque: Torque | None  # None where no rule may give one
    origin: str
    least_nm: float | None = None  # of a self-locking nut: measured first, renewed below it
    place: Place = NOWHERE
